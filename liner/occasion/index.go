package occasion

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"underflap/liner"
	"underflap/liner/index"
	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/words"
)

// index is what the index pages tell, of one PDF or of a folder.
func (o *Occasion) index(totals []string, folder bool) index.Occasion {
	all := index.Occasion{Title: o.Title, Paper: o.mainPaper(), PrinterMargin: sheet.UsualPrinterMargin, Totals: totals, Ahead: !folder}
	for _, l := range o.Lines {
		all.PrinterMargin = max(all.PrinterMargin, l.Plan.PrinterMargin)
		entry := index.Line{Letter: l.Letter, Name: l.Name, Says: l.says(), Plan: l.Plan, Count: l.Count, Colour: l.Request.PaperColour()}
		if !l.Plan.Blank {
			entry.Design = l.design().Apart()
		}
		all.Lines = append(all.Lines, entry)
	}
	first := 1
	for _, alike := range o.runs() {
		s, copies := alike[0], 0
		for _, one := range alike {
			copies += one.Copies
		}
		entry := index.Sheet{Plan: s.Plan, Marks: s.Marks, Lines: s.Lines}
		if folder {
			for _, one := range alike { // each in a file
				entry.First, entry.Last, entry.File = 1, one.Copies, one.File
				all.Sheets = append(all.Sheets, entry)
			}
			continue
		}
		entry.First, entry.Last = first, first+copies-1
		first += copies
		all.Sheets = append(all.Sheets, entry)
	}
	return all
}

// runs are the sheets, those together whose liners lie alike: copies of one that
// differ in their artwork.
func (o *Occasion) runs() (all [][]Sheet) {
	for i, s := range o.Sheets {
		if i > 0 && s.run == o.Sheets[i-1].run {
			all[len(all)-1] = append(all[len(all)-1], s)
			continue
		}
		all = append(all, []Sheet{s})
	}
	return all
}

// mainPaper is the paper of most sheets, the first of several.
func (o *Occasion) mainPaper() liner.Paper {
	count := o.paperSheets()
	papers := o.papers()
	return slices.MaxFunc(papers, func(a, b liner.Paper) int { return count[a.Name] - count[b.Name] })
}

// says is a line in a few words.
func (l Line) says() string {
	what := "to trace"
	if !l.Plan.Blank {
		what = sheet.DesignTitle(l.design())
	}
	if l.Vary {
		what += ", no two alike"
	}
	return fmt.Sprintf("%s, %s, pocket depth %s", l.Plan.Liner.Envelope.Short, what, words.MM(l.Plan.Depth))
}

// indexPDF draws the index pages and writes them.
func (o *Occasion) indexPDF(ctx context.Context, folder bool) ([]byte, error) {
	totals, err := o.Totals(ctx, true)
	if err != nil {
		return nil, err
	}
	of := o.index(totals, folder)
	drawn, err := index.Draw(ctx, of)
	var small *words.Refused
	if errors.As(err, &small) && small.Field == "paper" { // nobody chose it for an index
		if of.Paper, err = liner.ParsePaper("paper", request.DefaultPaper); err == nil {
			drawn, err = index.Draw(ctx, of)
		}
	}
	if err != nil {
		return nil, err
	}
	made, err := request.SourceDate()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = pdf.Write(ctx, &b, drawn, made)
	return b.Bytes(), err
}

// saveIndex makes a folder's index, unless the very same is there. It is recorded
// before it is there, so that it is known as ours whenever the run stops.
func saveIndex(ctx context.Context, dir string, known record, index func() ([]byte, error)) error {
	data, err := index()
	if err != nil {
		return err
	}
	sum := sha256.Sum256(data)
	hexed, path := hex.EncodeToString(sum[:]), filepath.Join(dir, IndexFile)
	if now, err := sumOf(ctx, path); err == nil && now == hexed {
		known[IndexFile] = hexed
		return nil
	}
	log, err := openJournal(dir, Part{})
	if err != nil {
		return err
	}
	defer log.Close()
	if err := log.add(hexed, IndexFile); err != nil {
		return err
	}
	known[IndexFile] = hexed
	return request.Save(ctx, path, func(w io.Writer) error { _, err := w.Write(data); return err })
}
