package request

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// A printer that prints 100 mm as 98.7 mm is met by drawing 100/98.7 times as
// large: three PDF renderers and one SVG renderer measure 101.317 mm on the
// corrected page, and 100 mm the other way.

// shrunk is what the 100 mm rule measures, and wanted what has to be drawn.
const shrunk, wanted = "98.7", 101.317

func TestACorrectedRuleMeasuresAsMuchLongerAcrossOrDownAsAsked(t *testing.T) {
	across, down := Words{Envelope: "dl"}, Words{} // how their rules lie
	for name, c := range map[string]struct {
		words Words
		long  float64
	}{
		"across, corrected across": {with(across, shrunk, ""), wanted},
		"across, corrected down":   {with(across, "", shrunk), 100},
		"down, corrected across":   {with(down, shrunk, ""), 100},
		"down, corrected down":     {with(down, "", "100/"+shrunk), wanted},
	} {
		t.Run(name, func(t *testing.T) {
			made := makeOf(t, c.words)
			fit := stretched(t, c.words, Report(made.Plan, made.Marks), made)
			bar := fit.Rule.Outline
			if lies := bar[2][0]-bar[0][0] > bar[2][1]-bar[0][1]; lies != strings.HasPrefix(name, "across") {
				t.Fatalf("the rule is at %v", bar)
			}
			notes := referee.OnlyLayer(t, encode(t, made, "pdf"), draw.Notes)
			for renderer, render := range referee.Renderers {
				t.Run(renderer, func(t *testing.T) { checkRuleOf(t, fit, render(t, notes, truthDPI), c.long) })
			}
			t.Run("librsvg", func(t *testing.T) {
				checkRuleOf(t, fit, referee.SVG(t, encode(t, made, "svg"), truthDPI, onlyGroup(draw.Notes)), c.long)
			})
			t.Run("our PNG", func(t *testing.T) { checkRuleOf(t, fit, referee.PNG(t, encode(t, made, "png"), truthDPI), c.long) })
		})
	}
}

func TestCorrectedCutLinesLieWhereFitSaysStretchedAboutThePagesMiddle(t *testing.T) {
	words := with(Words{Envelope: "a7", Flap: "square", Paper: "letter"}, shrunk, "101.2")
	made := makeOf(t, words)
	fit := stretched(t, words, Report(made.Plan, made.Marks), made)
	cut := referee.OnlyLayer(t, encode(t, made, "pdf"), draw.Cut)
	for renderer, render := range referee.Renderers {
		t.Run(renderer, func(t *testing.T) { checkCutLines(t, fit, render(t, cut, truthDPI)) })
	}
	t.Run("librsvg", func(t *testing.T) {
		checkCutLines(t, fit, referee.SVG(t, encode(t, made, "svg"), truthDPI, onlyGroup(draw.Cut)))
	})
}

// with adds corrections to words.
func with(w Words, x, y string) Words {
	w.CorrectX, w.CorrectY = x, y
	return w
}

// stretched is a report with every point of the page moved as the corrections
// ask, worked out here from the typed words: away from the middle of the page by
// 100 over what was measured.
func stretched(t *testing.T, w Words, fit Fit, made Made) Fit {
	t.Helper()
	factor := func(word string) float64 {
		if word == "" {
			return 1
		}
		var measured float64
		if _, err := fmt.Sscan(strings.TrimPrefix(word, "100/"), &measured); err != nil {
			t.Fatal(err)
		}
		return 100 / measured
	}
	kx, ky := factor(w.CorrectX), factor(w.CorrectY)
	move := func(points [][2]float64) [][2]float64 {
		var out [][2]float64
		for _, p := range points {
			out = append(out, [2]float64{made.Plan.Paper.Width/2 + kx*(p[0]-made.Plan.Paper.Width/2), made.Plan.Paper.Height/2 + ky*(p[1]-made.Plan.Paper.Height/2)})
		}
		return out
	}
	for i := range fit.Placements {
		fit.Placements[i].Outline = move(fit.Placements[i].Outline)
	}
	fit.Rule = &Rule{Length: fit.Rule.Length, Outline: move(fit.Rule.Outline)}
	return fit
}

// What is off by little is drawn; the page stays the paper, and its boxes lie
// inside each other, whatever the correction.
func TestPageBoxesOfACorrectedPDFStayInsideTheSheet(t *testing.T) {
	const points = 72 / 25.4
	for _, words := range []Words{with(Words{}, "99", "98.7"), with(Words{}, "101.5", "104"), with(Words{PrinterMargin: "0", Bleed: "4"}, "98.7", "98.7"),
		with(Words{Paper: "letter", Envelope: "a2", PrinterMargin: "15"}, "92", "110")} {
		r, err := Resolve(t.Context(), words)
		if err != nil {
			t.Fatal(err)
		}
		made, err := r.Make(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		page, _, _, err := referee.Opened(t, encode(t, made, "pdf")).PageDict(1, false)
		if err != nil {
			t.Fatal(err)
		}
		media, bleed, trim := numbers(t, page, "MediaBox"), numbers(t, page, "BleedBox"), numbers(t, page, "TrimBox")
		w, h := made.Plan.Paper.Width, made.Plan.Paper.Height
		if math.Abs(media[2]-w*points) > 1e-6 || math.Abs(media[3]-h*points) > 1e-6 || media[0] != 0 || media[1] != 0 {
			t.Errorf("%+v: MediaBox %v for %g x %g mm", words, media, w, h)
		}
		for i := range 4 {
			in, out := bleed[i], media[i]
			if i > 1 {
				in, out = out, in
			}
			if in < out-0.01 {
				t.Errorf("%+v: BleedBox %v in MediaBox %v", words, bleed, media)
			}
			in, out = trim[i], bleed[i]
			if i > 1 {
				in, out = out, in
			}
			if in < out-0.01 {
				t.Errorf("%+v: TrimBox %v in BleedBox %v", words, trim, bleed)
			}
		}
		fit := stretched(t, words, Report(made.Plan, made.Marks), made)
		minX, minY, maxX, maxY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, p := range fit.Placements {
			for _, q := range p.Outline {
				minX, minY, maxX, maxY = min(minX, q[0]), min(minY, q[1]), max(maxX, q[0]), max(maxY, q[1])
			}
		}
		for i, want := range []float64{max(0, minX), max(0, h-maxY), min(w, maxX), min(h, h-minY)} {
			if math.Abs(trim[i]/points-want) > 0.02 { // chords of arcs
				t.Errorf("%+v: TrimBox %v, and the cut lines end at %.3f mm", words, trim, want)
			}
		}
	}
}

// However far a printer is out, no cut line is pushed off the sheet: the margin is
// widened by as much as is needed, and that is said.
func TestNoCorrectionPushesCutLinesOffTheSheet(t *testing.T) {
	for _, c := range []struct {
		words   Words
		widened string // in millimetres: half the paper's side, less what a stretch leaves of it
	}{
		{with(Words{}, "", "92"), "11.9 mm"},               // 297/2 x 0.08
		{with(Words{Envelope: "dl"}, "", "91"), "13.4 mm"}, // 297/2 x 0.09
		{with(Words{Paper: "letter"}, "93", ""), "7.6 mm"}, // 215.9/2 x 0.07
		{with(Words{PrinterMargin: "0"}, "99", "99"), "1.5 mm"},
		{with(Words{PrinterMargin: "12"}, "", "92"), ""},
		{with(Words{}, "98.7", "98.7"), ""},
		{with(Words{PrinterMargin: "0"}, "104", "101"), ""},
	} {
		r, err := Resolve(t.Context(), c.words)
		if err != nil {
			t.Fatal(err)
		}
		made, err := r.Make(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		page := made.Pages[0]
		if trim := page.Trim; trim.MinX < -1e-9 || trim.MinY < -1e-9 || trim.MaxX > page.Width+1e-9 || trim.MaxY > page.Height+1e-9 {
			t.Errorf("x %q, y %q: cut lines at %v on a page of %g x %g mm", c.words.CorrectX, c.words.CorrectY, trim, page.Width, page.Height)
		}
		said := strings.Join(r.Found.Remarks, "|")
		if widened := strings.Contains(said, "printer margin widened from "); widened != (c.widened != "") || widened && !strings.Contains(said, " to "+c.widened+", so that") {
			t.Errorf("x %q, y %q, margin %q: %q, want %q", c.words.CorrectX, c.words.CorrectY, c.words.PrinterMargin, said, c.widened)
		}
		if !strings.Contains(said, " for the printer") {
			t.Errorf("x %q, y %q: not said what is done: %q", c.words.CorrectX, c.words.CorrectY, said)
		}
	}
}

func TestAPageThatComesAgainIsCorrectedOnce(t *testing.T) {
	made := makeOf(t, with(Words{Count: "5"}, "", shrunk))
	if len(made.Pages) != 3 || made.Pages[0] != made.Pages[1] || made.Pages[2] == made.Pages[0] {
		t.Errorf("%d pages; full sheets should be one page", len(made.Pages))
	}
	plain := makeOf(t, Words{Count: "5"})
	if same := (Correction{X: 1, Y: 1}).Apply(plain.Pages); same[0] != plain.Pages[0] || same[2] != plain.Pages[2] {
		t.Error("without a correction there is nothing to do")
	}
}

// Rulers and templates are stretched as sheets are.
func TestRulersAndTemplatesAreCorrectedToo(t *testing.T) {
	for name, pages := range map[string]func(Words) ([]*draw.Page, error){
		"ruler": func(w Words) ([]*draw.Page, error) {
			r, err := ResolveRuler(w)
			if err != nil {
				return nil, err
			}
			return r.Page()
		},
		"fold": func(w Words) ([]*draw.Page, error) {
			w.Handmade, w.Card, w.From = "four-corner", "a6", "210x210"
			f, err := ResolveFold(w)
			if err != nil {
				return nil, err
			}
			return f.Template()
		},
		"blank sheet": func(w Words) ([]*draw.Page, error) {
			w.Blank = true
			r, err := Resolve(t.Context(), w)
			if err != nil {
				return nil, err
			}
			made, err := r.Make(t.Context())
			return made.Pages, err
		},
	} {
		plain, err := pages(Words{})
		if err != nil {
			t.Fatal(err)
		}
		corrected, err := pages(with(Words{}, "102", shrunk))
		if err != nil {
			t.Fatal(err)
		}
		if len(plain) != len(corrected) {
			t.Fatalf("%s: %d pages, corrected %d", name, len(plain), len(corrected))
		}
		for i, page := range corrected {
			for k, node := range page.Nodes() {
				was, is := plain[i].Nodes()[k].Bounds(), node.Bounds()
				for _, edge := range [][3]float64{{was.MinX, is.MinX, page.Width / 2}, {was.MaxX, is.MaxX, page.Width / 2}} {
					if want := edge[2] + 100/102.0*(edge[0]-edge[2]); math.Abs(edge[1]-want) > 1e-6 {
						t.Errorf("%s, page %d: an edge at %g is at %g, want %g", name, i, edge[0], edge[1], want)
					}
				}
				for _, edge := range [][2]float64{{was.MinY, is.MinY}, {was.MaxY, is.MaxY}} {
					if want := page.Height/2 + 100/98.7*(edge[0]-page.Height/2); math.Abs(edge[1]-want) > 1e-6 {
						t.Errorf("%s, page %d: an edge at %g is at %g, want %g", name, i, edge[0], edge[1], want)
					}
				}
			}
		}
	}
}

// Fit speaks of the sheet as it will lie on the table, whatever the printer
// needs; the printed rule's length in it is 100 mm.
func TestFitIsNotStretched(t *testing.T) {
	made := makeOf(t, with(Words{}, shrunk, shrunk))
	plain := makeOf(t, Words{})
	a, errA := Report(made.Plan, made.Marks).JSON()
	b, errB := Report(plain.Plan.Settle()).JSON()
	if string(a) != string(b) || errA != nil || errB != nil {
		t.Errorf("%s\n%s", a, b)
	}
}
