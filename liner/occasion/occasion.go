// Package occasion makes everything that a job file of several liners asks for:
// it settles each of them, lays them on sheets that they share where that saves
// paper, and makes the sheets in parallel, into one PDF or a folder. What was made
// is found again by its content, so that stopped work goes on where it ended.
// Lengths are millimetres.
package occasion

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"
	"golang.org/x/text/unicode/norm"

	"underflap/liner/gang"
	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/pattern"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Wish is what is wanted of an occasion besides what its file says.
type Wish struct {
	Title       string   // where the file says none
	Vary        bool     // no two liners alike, whatever the file says
	Only        []string // of these names; all when there are none
	PaperWeight string   // as typed, of the paper printed on; default 80 g/m²
	CutFormat   string   // of cutfile.Formats: a cut file beside every sheet of a folder; "" for none
	Tool        string   // this program's version, which shapes what it makes
	Shelf       request.Shelf
	Beside      filed.Source // files that the job file names and does not carry
}

// Occasion is settled: every liner has its place on a sheet.
type Occasion struct {
	Title       string
	Lines       []Line
	Sheets      []Sheet
	Alone       int     // sheets that it would take if every line had sheets of its own
	PaperWeight float64 // g/m²

	tool string
	cuts string // the format of cut files, or ""
}

// Line is the liners of one kind.
type Line struct {
	Letter  string // of pictures and lists: A, B, ... Z, AA
	Name    string
	Request request.Request
	Plan    sheet.Plan  // on sheets of their own, settled
	Marks   sheet.Marks // of a full sheet of them
	Count   int
	Vary    bool
	Apart   bool

	number  int // in the whole file, from 0, whichever are made
	artwork [32]byte
}

// MostSheets bounds an occasion.
const MostSheets = 5000

// New settles an occasion. What is refused is a *filed.Slip with the place in the
// file, or a *words.Refused of the wish. When ctx ends it stops and gives the
// context's error.
func New(ctx context.Context, file request.Occasion, wish Wish) (*Occasion, error) {
	o := &Occasion{Title: file.Title, tool: wish.Tool, cuts: wish.CutFormat}
	if o.Title == "" {
		o.Title = norm.NFC.String(wish.Title) // some discs part accents from their letters
	}
	var err error
	if o.PaperWeight, err = request.ResolvePaperWeight(wish.PaperWeight); err != nil {
		return nil, err
	}
	numbers, err := wanted(file, wish.Only)
	if err != nil {
		return nil, err
	}
	memory := request.NewMemory()
	o.Lines = make([]Line, len(numbers))
	slips := make([]error, len(numbers))
	var work errgroup.Group
	work.SetLimit(runtime.GOMAXPROCS(0))
	for i, n := range numbers {
		work.Go(func() error {
			line := file.Lines[n]
			w := line.Look.Words
			w.Shelf, w.Files, w.Memory = wish.Shelf, line.Source(wish.Beside), memory
			o.Lines[i], slips[i] = settle(ctx, w)
			l := &o.Lines[i]
			l.Letter, l.Name, l.number = letter(n), line.Name, n
			l.Vary, l.Apart = line.Vary || wish.Vary, line.Apart || file.Apart
			slips[i] = blame(line, slips[i])
			return nil
		})
	}
	_ = work.Wait() // slips are in the order of the file
	if err := first(append([]error{ctx.Err()}, slips...)); err != nil {
		return nil, err
	}
	if err := o.lay(ctx); err != nil {
		return nil, err
	}
	return o, o.check(file)
}

// settle settles one line's words.
func settle(ctx context.Context, w request.Words) (l Line, err error) {
	if l.Request, err = request.Resolve(ctx, w); err != nil {
		return l, err
	}
	if l.Plan, l.Marks, err = l.Request.Settle(ctx); err != nil {
		return l, err
	}
	l.Count = l.Plan.Count
	l.artwork, err = w.Artwork()
	return l, err
}

// blame says where in the file a line is refused.
func blame(line request.OccasionLine, err error) error {
	var refused *words.Refused
	err = line.Blame(err)
	if errors.As(err, &refused) { // a word that the file leaves out
		return line.Slip(fmt.Sprintf("%s: %s", line.Name, refused.Error()))
	}
	return err
}

func first(errs []error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// wanted are the numbers of the lines that are to be made, in the file's order.
func wanted(file request.Occasion, only []string) (numbers []int, err error) {
	var names []string
	for _, line := range file.Lines {
		names = append(names, line.Name)
	}
	chosen := map[int]bool{}
	for _, name := range only {
		i := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(n, norm.NFC.String(strings.TrimSpace(name))) })
		if i < 0 {
			return nil, &words.Refused{Field: "only", Given: name, Accepts: strings.Join(names, ", ")}
		}
		chosen[i] = true
	}
	for i := range file.Lines {
		if len(only) == 0 || chosen[i] {
			numbers = append(numbers, i)
		}
	}
	return numbers, nil
}

// letter is A for 0, Z for 25, AA for 26.
func letter(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return letter(n/26-1) + letter(n%26)
}

// stock is what lines must have in common to share a sheet besides their tasks: how
// it is printed.
func (l Line) stock() string { return fmt.Sprint(l.Request.Correction, l.Request.Press()) }

// lay puts the liners on sheets.
func (o *Occasion) lay(ctx context.Context) error {
	var lines []gang.Line
	for _, l := range o.Lines {
		lines = append(lines, gang.Line{Name: l.Name, Plan: l.Plan, Marks: l.Marks, Apart: l.Apart, Stock: l.stock()})
	}
	o.Alone = gang.Sheets(gang.Alone(lines))
	if o.Alone > MostSheets {
		return &filed.Slip{Place: filed.Place{Line: 1, Column: 1}, Why: fmt.Sprintf("%d sheets in all; accepted: up to %d in one file", o.Alone, MostSheets)}
	}
	shared, err := gang.Share(ctx, lines)
	if err != nil {
		return err
	}
	o.number(shared)
	return ctx.Err()
}

// check refuses designs that a liner cannot carry, each as it is turned.
func (o *Occasion) check(file request.Occasion) error {
	for _, s := range o.Sheets {
		for i, pl := range s.Plan.Placements {
			line := o.Lines[s.Lines[pl.Piece]]
			if line.Plan.Blank {
				continue
			}
			if err := line.Plan.Check(s.Designs[i]); err != nil {
				return blame(file.Lines[line.number], err)
			}
		}
	}
	return nil
}

// design is what its liners carry as designed; that of blank ones is of no matter.
func (l Line) design() pattern.Design { return l.Request.Design }
