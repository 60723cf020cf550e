package desk

import (
	"bytes"
	"context"
	"encoding/base64"
	"fmt"
	"math"
	"net/http"
	"sync"

	"underflap/liner/request"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Widths of the pictures on the page in pixels, at most: as sharp as screens of
// two pixels to the point need at the size that they are shown.
const lookWide, sheetWide = 900.0, 700.0

// picture is a picture inside an answer, and words for those who cannot see it.
type picture struct {
	Src    string `json:"src"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
	About  string `json:"about"`
}

// preview is all that changes on the page when a word changes. Lengths are
// millimetres.
type preview struct {
	Problems []problem `json:"problems"`
	Remarks  []string  `json:"remarks"`
	Look     *picture  `json:"look,omitempty"`
	Sheet    *picture  `json:"sheet,omitempty"`

	Envelope *envelopeSaid `json:"envelope,omitempty"`
	Liner    *linerSaid    `json:"liner,omitempty"`
	Says     string        `json:"says,omitempty"`
	Colours  *coloursSaid  `json:"colours,omitempty"`
	Copies   *copiesSaid   `json:"copies,omitempty"`
	Command  string        `json:"command"`
}

type envelopeSaid struct {
	Name      string  `json:"name"`
	Width     float64 `json:"width"`
	Height    float64 `json:"height"`
	FlapDepth float64 `json:"flapDepth"`
	Flap      string  `json:"flap"`
}

type linerSaid struct {
	Width    float64 `json:"width"`
	Height   float64 `json:"height"`
	OnFlap   float64 `json:"onFlap"`
	InPocket float64 `json:"inPocket"`
}

type coloursSaid struct {
	Name   string   `json:"name"`
	Ground string   `json:"ground"`
	Inks   []string `json:"inks"`
}

type copiesSaid struct {
	Count    int    `json:"count"`
	PerSheet int    `json:"perSheet"`
	Sheets   int    `json:"sheets"`
	Paper    string `json:"paper"`
	Says     string `json:"says"`
}

func (d *Desk) preview(w http.ResponseWriter, r *http.Request) error {
	f, err := d.fromBody(w, r)
	if err != nil {
		return err
	}
	ctx, done, err := d.previews.within(r.Context(), d.limits.PreviewTime)
	if err != nil {
		return err
	}
	defer done()
	answer, err := d.drawn(ctx, f)
	if err != nil {
		return err
	}
	answerJSON(w, http.StatusOK, answer)
	return nil
}

// drawn draws the envelope and the sheet side by side. Where one of them cannot be
// drawn, all that is wrong with the words is told.
func (d *Desk) drawn(ctx context.Context, f form) (preview, error) {
	out := preview{Problems: []problem{}, Remarks: []string{}, Command: f.command()}
	if err := d.warm(ctx, f.Look); err != nil {
		return d.wrong(ctx, f, out, err)
	}
	var seen request.Seen
	var made request.Made
	var asked request.Request
	var saving string
	var look, sheet *picture
	errs := [2]error{}
	var both sync.WaitGroup
	both.Go(func() {
		errs[0] = guarded(func() (err error) {
			if seen, err = request.See(ctx, f.Look); err != nil {
				return err
			}
			look, err = d.shown(ctx, seen.Pages(), lookWide, f.line(seen.About))
			return err
		})
	})
	both.Go(func() {
		errs[1] = guarded(func() (err error) {
			if asked, err = request.Resolve(ctx, f.sheetWords()); err != nil {
				return err
			}
			if made, err = asked.Make(ctx); err != nil {
				return err
			}
			if saving, err = asked.Saving(ctx, made.Plan); err != nil {
				return err
			}
			sheet, err = d.shown(ctx, made.Pages, sheetWide, f.line(sheetAbout(made)))
			return err
		})
	})
	both.Wait()
	if errs[0] != nil || errs[1] != nil {
		return d.wrong(ctx, f, out, errs[:]...)
	}
	out.Look, out.Sheet = look, sheet
	out.tell(f, seen, asked, made, saving)
	return out, nil
}

// wrong is the answer to words that cannot be drawn.
func (d *Desk) wrong(ctx context.Context, f form, out preview, errs ...error) (preview, error) {
	all, err := request.Problems(ctx, f.Look)
	first := make([]error, 0, len(all)+len(errs))
	for _, refused := range all {
		first = append(first, refused)
	}
	list, other := f.problems(append(first, errs...)...)
	if len(list) == 0 {
		if other == nil {
			other = err
		}
		return out, other
	}
	out.Problems = list
	return out, nil
}

// guarded runs a part of the work; a slip of ours in it becomes an error, since it
// is nobody's to catch in a goroutine.
func guarded(work func() error) (err error) {
	defer func() {
		if slip := recover(); slip != nil {
			err = fmt.Errorf("panic: %v", slip)
		}
	}()
	return work()
}

// shown is the first page as a picture of at most so many pixels across.
func (d *Desk) shown(ctx context.Context, pages []*draw.Page, wide float64, about string) (*picture, error) {
	page := pages[0]
	dpi := wide * words.MillimetresPerInch / max(page.Width, page.Height)
	var b bytes.Buffer
	if err := (request.Output{Format: "png", DPI: dpi, Memory: d.memory}).Encode(ctx, &b, pages); err != nil {
		return nil, err
	}
	px := func(mm float64) int { return int(math.Round(mm / words.MillimetresPerInch * dpi)) }
	return &picture{Src: "data:image/png;base64," + base64.StdEncoding.EncodeToString(b.Bytes()), Width: px(page.Width), Height: px(page.Height), About: about}, nil
}
