package request

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"underflap/pattern/words"
)

// Whatever word differs, an answer from a memory full of other answers is the
// answer that nobody remembers. The words are those of Fields: one that is added
// there is asked here too, and must be given words when its kind is new.
func TestNoWordIsMissingFromTheMemorysKeys(t *testing.T) {
	memory := NewMemory()
	shelf := Shelf{Dir: t.TempDir()}
	if _, err := shelf.SavePrinter(t.Context(), "kitchen", Correction{X: 1.02, Y: 0.99}); err != nil {
		t.Fatal(err)
	}
	flap := filepath.Join(t.TempDir(), "flap.csv")
	if err := os.WriteFile(flap, []byte("0,0\n40,50\n81,62\n120,50\n162,0\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	art := photoOfStamp(t)

	byName := map[string][]string{"envelope": {"c5"}, "card": {"a6"}, "pattern": {"leaves"}, "palette": {"hop-garden", "photo:" + art}, "printer": {"kitchen"}, "patterns": {"leaves,petals"},
		"palettes": {"hop-garden,rowan-jelly"}, "profile": {flap}, "stamp": {art}, "stamp-colour": {"2", "keep"}, "view": {"half"}, "per-sheet": {"1"}, "correct-x": {"98.7"}, "correct-y": {"98.7"},
		"registration": {"three"}, "registration-line": {"2"}}
	byKind := map[string][]string{LengthKind: {"13", "3.5", "55", "120"}, DepthKind: {"30"}, SizeKind: {"150x110"}, "number": {"2"}, "degrees": {"30"}, "colour": {"navy"}, "colours": {"#b4472e,goldenrod"},
		"name=value": {"size=17mm"}}
	settle := func(f Field, word string) {
		switch {
		case f.Mark != nil:
			*f.Mark = true
		case f.List != nil:
			*f.List = []string{word}
		default:
			*f.Text = word
		}
	}
	bases := []Look{{}, {Words: Words{Stamp: art}}, {Words: Words{Handmade: "four-corner", Card: "a6"}}, {Words: Words{Gum: "0"}}, {Words: Words{Registration: "all"}}}
	for _, base := range bases {
		base.Shelf, base.Memory = shelf, memory
		if _, err := tersely(t, base); err != nil {
			t.Fatal(err)
		}
	}
	for i, f := range new(Look).Fields() {
		tried := byName[f.Name]
		switch {
		case f.Mark != nil:
			tried = []string{"true"}
		case tried == nil && len(f.Offers) > 0:
			tried = []string{f.Offers[len(f.Offers)-1], f.Offers[0]} // one of them is not the default
		case tried == nil:
			tried = byKind[f.Kind]
		}
		t.Run(f.Name, func(t *testing.T) {
			t.Parallel()
			asked := 0
			for _, word := range tried {
				for _, base := range bases {
					l := base
					l.Shelf, l.Set = shelf, slices.Clone(l.Set)
					settle(l.Fields()[i], word)
					want, err := tersely(t, l)
					if err != nil {
						continue // the word goes with another base
					}
					l.Memory = memory
					for range 2 { // to keep it, and to find it
						if got, err := tersely(t, l); err != nil || got != want {
							t.Errorf("--%s %s: with a memory the answer is another; %v", f.Name, word, err)
						}
					}
					asked++
					break
				}
			}
			if asked == 0 {
				t.Errorf("none of %q is an answer's", tried)
			}
		})
	}
}

// tersely is all that is answered, the pictures small: of the envelope, of its
// sheet, and what is said of both.
func tersely(t *testing.T, l Look) (string, error) {
	var all bytes.Buffer
	seen, err := See(t.Context(), l)
	if err != nil {
		return "", err
	}
	o := Output{Format: "png", DPI: 100 * words.MillimetresPerInch / seen.Width, Memory: l.Memory}
	if err := o.Encode(t.Context(), &all, seen.Pages()); err != nil {
		return "", err
	}
	r, err := Resolve(t.Context(), l.Words)
	if err != nil {
		return "", err
	}
	made, err := r.Make(t.Context())
	if err != nil {
		return "", err
	}
	o.DPI = 200 * words.MillimetresPerInch / made.Pages[0].Width
	if err := o.Encode(t.Context(), &all, made.Pages); err != nil {
		return "", err
	}
	fmt.Fprint(&all, seen.Says, seen.Remarks, r.Found.Remarks, Text(made.Plan), len(made.Pages))
	return all.String(), nil
}
