package occasion

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"path/filepath"

	"underflap/liner/index"
	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/words"
)

// index is what the index pages tell. first is the page of the first sheet, or 0
// where every sheet is a file of its own.
func (o *Occasion) index(totals []string, first int) index.Occasion {
	paper := o.Lines[0].Plan.Paper
	for _, l := range o.Lines { // as most of the sheets are, or else the first
		if o.paperSheets()[l.Plan.Paper.Name] > o.paperSheets()[paper.Name] {
			paper = l.Plan.Paper
		}
	}
	all := index.Occasion{Title: o.Title, Paper: paper, PrinterMargin: sheet.UsualPrinterMargin, Totals: totals}
	for _, l := range o.Lines {
		all.PrinterMargin = max(all.PrinterMargin, l.Plan.PrinterMargin)
	}
	for _, l := range o.Lines {
		entry := index.Line{Letter: l.Letter, Name: l.Name, Says: l.says(), Plan: l.Plan, Count: l.Count, Colour: draw.White}
		if !l.Plan.Blank {
			entry.Design = l.design().Apart()
		}
		all.Lines = append(all.Lines, entry)
	}
	for _, s := range o.Sheets {
		entry := index.Sheet{Plan: s.Plan, Marks: s.Marks, Lines: s.Lines, First: 1, Last: s.Copies, File: s.File}
		if first > 0 {
			entry.First, entry.Last, entry.File = first, first+s.Copies-1, ""
			first += s.Copies
		}
		all.Sheets = append(all.Sheets, entry)
	}
	return all
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
func indexPDF(ctx context.Context, of index.Occasion) (data []byte, pages int, err error) {
	drawn, err := index.Draw(ctx, of)
	if err != nil {
		return nil, 0, err
	}
	made, err := request.SourceDate()
	if err != nil {
		return nil, 0, err
	}
	var b bytes.Buffer
	err = pdf.Write(ctx, &b, drawn, made)
	return b.Bytes(), len(drawn), err
}

// bookIndex is the index of one PDF. It tells on which pages sheets are, and so on
// how many it stands itself.
func (o *Occasion) bookIndex(ctx context.Context) (io.ReadSeeker, error) {
	totals, err := o.Totals(ctx, true)
	if err != nil {
		return nil, err
	}
	for took := 1; ; {
		data, pages, err := indexPDF(ctx, o.index(totals, took+1))
		if err != nil {
			return nil, err
		}
		if pages <= took { // numbers of more digits may take more room, never less
			if pages < took {
				return nil, fmt.Errorf("the index stands on %d pages, then on %d", took, pages)
			}
			return bytes.NewReader(data), nil
		}
		took = pages
	}
}

// saveIndex makes a folder's index, unless the very same is there. It is recorded
// before it is there, so that it is known as ours whenever the run stops.
func (o *Occasion) saveIndex(ctx context.Context, dir string, known record) error {
	totals, err := o.Totals(ctx, true)
	if err != nil {
		return err
	}
	data, _, err := indexPDF(ctx, o.index(totals, 0))
	if err != nil {
		return err
	}
	sum := sha256.Sum256(data)
	hexed, path := hex.EncodeToString(sum[:]), filepath.Join(dir, IndexFile)
	if now, err := sumOf(ctx, path); err == nil && now == hexed {
		known[IndexFile] = hexed
		return nil
	}
	log, err := openJournal(dir)
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
