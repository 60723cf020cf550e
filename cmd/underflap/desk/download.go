package desk

import (
	"bytes"
	"context"
	"fmt"
	"mime"
	"net/http"
	"strings"
	"unicode"

	"underflap/liner/request"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

var mediaTypes = map[string]string{"pdf": "application/pdf", "png": "image/png", "svg": "image/svg+xml"}

// drawing is pages and what their file should be called.
type drawing struct {
	pages []*draw.Page
	dpi   string
	name  []string
}

// sheets answers with the sheets of liners: to keep, or to print at once.
func (d *Desk) sheets(format string, keep bool) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		return d.file(w, r, format, keep, func(ctx context.Context, f form) (drawing, error) {
			asked, err := request.Resolve(ctx, f.sheetWords())
			if err != nil {
				return drawing{}, err
			}
			made, err := asked.Make(ctx)
			name := []string{"liners", made.Plan.Liner.Envelope.Short}
			if !f.Blank {
				name = append(name, asked.Design.Name, asked.Design.Colours.Name)
			}
			return drawing{made.Pages, f.dpi, name}, err
		})
	}
}

// look answers with the picture of the lined envelope, large.
func (d *Desk) look(w http.ResponseWriter, r *http.Request) error {
	return d.file(w, r, "png", true, func(ctx context.Context, f form) (drawing, error) {
		seen, err := request.See(ctx, f.Look)
		if err != nil {
			return drawing{}, err
		}
		if f.dpi == "" {
			f.dpi = seen.UsualDPI()
		}
		return drawing{seen.Pages(), f.dpi, []string{"envelope", seen.Found.Short, seen.Scene.Design.Name, seen.Scene.Design.Colours.Name}}, nil
	})
}

// fold answers with the template of an envelope folded by hand.
func (d *Desk) fold(w http.ResponseWriter, r *http.Request) error {
	return d.file(w, r, "pdf", true, func(ctx context.Context, f form) (drawing, error) {
		if f.Handmade == "" {
			return drawing{}, &words.Refused{Field: "handmade", Why: "this envelope is not folded by hand", Accepts: "a way to fold one"}
		}
		asked, err := request.ResolveFold(f.Words)
		if err != nil {
			return drawing{}, err
		}
		pages, err := asked.Template()
		return drawing{pages, "", []string{"fold", asked.Found.Short}}, err
	})
}

// ruler answers with the page that checks the printer's scale.
func (d *Desk) ruler(w http.ResponseWriter, r *http.Request) error {
	return d.file(w, r, "pdf", true, func(ctx context.Context, f form) (drawing, error) {
		asked, err := request.ResolveRuler(f.Words)
		if err != nil {
			return drawing{}, err
		}
		pages, err := asked.Page()
		return drawing{pages, "", []string{"ruler", asked.Paper.Short}}, err
	})
}

// file draws one file, and sends it when it is whole. The drawing's turn ends
// before anything is sent, so that a slow browser holds up none.
func (d *Desk) file(w http.ResponseWriter, r *http.Request, format string, keep bool, make func(context.Context, form) (drawing, error)) error {
	f, err := d.fromQuery(r, "dpi")
	if err != nil {
		return err
	}
	var b bytes.Buffer
	name, err := d.encoded(r.Context(), f, format, &b, make)
	if err != nil {
		return err
	}
	how := "inline"
	if keep {
		how = "attachment"
	}
	return d.send(w, mediaTypes[format], how, name, b.Bytes())
}

// send sends a whole file. Those that browsers are slow to take are held in so much
// memory and no more, so that it takes many small ones, or a few of the largest,
// before others are asked to come again.
func (d *Desk) send(w http.ResponseWriter, kind, how, name string, data []byte) error {
	if !d.sending.TryAcquire(int64(len(data))) {
		return errBusy
	}
	defer d.sending.Release(int64(len(data)))
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Disposition", mime.FormatMediaType(how, map[string]string{"filename": name}))
	h.Set("Content-Length", fmt.Sprint(len(data)))
	_, _ = w.Write(data) // a browser that left needs no answer
	return nil
}

// encoded draws one file into b, and gives its name.
func (d *Desk) encoded(ctx context.Context, f form, format string, b *bytes.Buffer, make func(context.Context, form) (drawing, error)) (name string, err error) {
	ctx, done, err := d.downloads.within(ctx, d.limits.DownloadTime)
	if err != nil {
		return "", err
	}
	defer done()
	if err := d.warm(ctx, f.Look); err != nil {
		return "", err
	}
	made, err := make(ctx, f)
	if err != nil {
		return "", err
	}
	to := request.Output{Format: format}
	if to.DPI, err = request.ResolveDPI(made.dpi); err != nil {
		return "", err
	}
	if err := to.Check(made.pages); err != nil {
		return "", err
	}
	return slug(made.name) + "." + format, to.Encode(ctx, &bounded{b, d.limits.DownloadSize}, made.pages)
}

// bounded is a buffer that takes so many bytes and no more.
type bounded struct {
	*bytes.Buffer
	most int
}

func (b *bounded) Write(p []byte) (int, error) {
	if b.Len()+len(p) > b.most {
		return 0, &words.Refused{Field: "dpi", Why: fmt.Sprintf("the file would be larger than %s", size(int64(b.most))), Accepts: "a smaller number, or the PDF"}
	}
	return b.Buffer.Write(p)
}

// slug is words as the name of a file that every system takes: small letters,
// digits and dashes.
func slug(parts []string) string {
	var kept []string
	for _, part := range parts {
		kept = append(kept, strings.FieldsFunc(strings.ToLower(part), func(r rune) bool { return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r) })...)
	}
	name := strings.Join(kept, "-")
	return strings.Trim(name[:min(len(name), 80)], "-")
}
