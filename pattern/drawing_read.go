package pattern

import (
	"crypto/sha256"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"underflap/pattern/draw"
	"underflap/pattern/draw/svgpath"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Limits of a pattern file. Lengths are millimetres.
const (
	MostFile    = 1 << 20 // bytes
	mostShapes  = 200
	mostPieces  = 20_000 // lines and curves of all shapes, with their turned copies
	leastCell   = 1.0
	mostCell    = 300.0
	leastLine   = 0.05
	mostLine    = 100.0
	mostAround  = 72
	mostFromMid = 2.0 // how far a shape may reach, in widths and heights of the cell together
	mostAbout   = 100 // characters
)

// drawingForm is a file as it is written. Lengths are any, so that they may be
// words with a unit.
type drawingForm struct {
	About  string      `toml:"about"`
	Width  any         `toml:"width"`
	Height any         `toml:"height"`
	Repeat string      `toml:"repeat"`
	Shapes []shapeForm `toml:"shape"`
}

type shapeForm struct {
	Path   *string   `toml:"path"`
	Circle []float64 `toml:"circle"`
	Band   []float64 `toml:"band"`
	Ink    any       `toml:"ink"`
	Line   any       `toml:"line"`
	Turn   any       `toml:"turn"`
	Move   []float64 `toml:"move"`
	Around any       `toml:"around"`
}

// drawingReader reads the form's values and keeps the first refusal.
type drawingReader struct {
	places filed.Places
	at     filed.Place // of what is read now
	err    error
}

func (r *drawingReader) refuse(err error) {
	if r.err == nil && err != nil {
		r.err = fmt.Errorf("line %d: %w", max(1, r.at.Line), err)
	}
}

func (r *drawingReader) refused(field, given, why, accepts string) {
	r.refuse(&words.Refused{Field: field, Given: given, Why: why, Accepts: accepts})
}

// parseDrawing reads a pattern file.
func parseDrawing(data []byte) (*drawing, error) {
	if len(data) > MostFile {
		return nil, fmt.Errorf("longer than %d kB", MostFile>>10)
	}
	var form drawingForm
	if err := filed.Decode(data, &form); err != nil {
		return nil, err
	}
	r := drawingReader{places: filed.PlacesIn(data)}
	d := &drawing{sum: fmt.Sprintf("%x", sha256.Sum256(data))}
	d.about = r.about(form.About)
	d.width = r.side("width", form.Width)
	d.height = r.side("height", form.Height)
	d.shapes = r.shapes(form.Shapes, d.width, d.height)
	d.repeat = r.repeat(form.Repeat, d.fields())
	if r.err != nil {
		return nil, r.err
	}
	return d, nil
}

func (r *drawingReader) about(given string) string {
	r.at = r.places["about"]
	if len([]rune(given)) > mostAbout || strings.ContainsFunc(given, unicode.IsControl) {
		r.refused("about", given, "", fmt.Sprintf("one line of up to %d characters", mostAbout))
	}
	return given
}

// side reads the cell's width or height.
func (r *drawingReader) side(key string, given any) float64 {
	r.at = r.places[key]
	if given == nil {
		r.refused(key, "", "missing", fmt.Sprintf("the %s of one repeat in millimetres, such as 24", key))
		return 1
	}
	v, err := words.Within(key, plainly(given), leastCell, mostCell)
	r.refuse(err)
	return v
}

// repeat reads how the motif recurs. A field's bands keep to rows and columns,
// which a repeat may not turn over or scatter.
func (r *drawingReader) repeat(given string, field bool) Repeat {
	r.at = r.places["repeat"]
	if given == "" {
		return Straight
	}
	if !field {
		v, err := ParseRepeat("repeat", given)
		r.refuse(err)
		return v
	}
	v, err := words.Choose("repeat", given, namesOf(fieldRepeats))
	if err != nil {
		r.refused("repeat", given, "the file has bands", strings.Join(namesOf(fieldRepeats), ", "))
	}
	return Repeat(v)
}

func (r *drawingReader) shapes(forms []shapeForm, width, height float64) []shape {
	r.at = filed.Place{Line: 1}
	if len(forms) == 0 {
		r.refused("shape", "", "missing", "at least one [[shape]] with a path, a circle or a band")
	}
	if len(forms) > mostShapes {
		r.at = r.places.Of("shape", mostShapes, "")
		r.refused("shape", "", fmt.Sprintf("%d of them", len(forms)), fmt.Sprintf("up to %d", mostShapes))
		return nil
	}
	var all []shape
	pieces := 0
	for i, f := range forms {
		s := shapeReader{r, i}
		one := s.shape(f, width, height)
		if r.err != nil {
			return nil
		}
		if pieces += len(one.path.Verbs); pieces > mostPieces {
			r.at = r.places.Of("shape", i, "")
			r.refused("shape", "", fmt.Sprintf("more than %d lines and curves in all", mostPieces), "a simpler drawing")
			return nil
		}
		all = append(all, one)
	}
	return all
}

// shapeReader reads the keys of one shape.
type shapeReader struct {
	*drawingReader
	entry int
}

func (s shapeReader) on(key string) { s.at = s.places.Of("shape", s.entry, key) }

func (s shapeReader) shape(f shapeForm, width, height float64) shape {
	s.on("")
	kinds := 0
	for _, there := range []bool{f.Path != nil, f.Circle != nil, f.Band != nil} {
		if there {
			kinds++
		}
	}
	if kinds != 1 {
		s.refused("shape", "", fmt.Sprintf("%d of path, circle and band", kinds), "one of them in each [[shape]]")
		return shape{}
	}
	out := shape{ink: s.count("ink", f.Ink, 1, 0, MostInks), line: s.length("line", f.Line, leastLine, mostLine)}
	switch {
	case f.Band != nil:
		s.band(&out, f, width, height)
		return out
	case f.Path != nil:
		s.on("path")
		var err error
		if out.path, err = svgpath.Parse(*f.Path); err != nil {
			s.refuse(fmt.Errorf("path: %w", err))
		} else if len(out.path.Verbs) == 0 {
			s.refused("path", *f.Path, "draws nothing", "SVG path data such as M0,-4 L3,2 H-3 Z")
		}
	default:
		if v := s.numbers("circle", f.Circle, 3, "x, y and radius, such as [0, -4, 1.5]"); v != nil && v[2] > 0 {
			out.path = draw.Circle(v[0], v[1], v[2])
		} else if v != nil {
			s.refused("circle", fmt.Sprint(v), "a radius of "+plainly(v[2]), "x, y and a radius above 0")
		}
	}
	s.lay(&out, f)
	s.on("")
	most := mostFromMid * (width + height)
	if reach := out.reach(1, 1); s.err == nil && (reach > most || reach == 0) {
		s.refused("shape", "", fmt.Sprintf("reaches %s from the middle of the cell, which is 0,0", words.MM(reach)), "more than 0 and up to "+words.MMDown(most)+"; move = [x, y] brings it nearer")
	}
	return out
}

// lay turns and moves the shape and draws it around the middle.
func (s shapeReader) lay(out *shape, f shapeForm) {
	s.on("turn")
	m := draw.Identity
	if f.Turn != nil {
		degrees, err := words.Number("turn", plainly(f.Turn), -360, 360)
		s.refuse(err)
		m = draw.Turn(degrees)
	}
	if f.Move != nil {
		if v := s.numbers("move", f.Move, 2, "x and y, such as [0, -4]"); v != nil {
			m = draw.Translate(v[0], v[1]).After(m)
		}
	}
	n := s.count("around", f.Around, 1, 1, mostAround)
	if s.err != nil {
		return
	}
	if len(out.path.Verbs)*n > mostPieces {
		s.refused("around", plainly(f.Around), fmt.Sprintf("more than %d lines and curves", mostPieces), "a simpler drawing")
		return
	}
	var whole draw.Path
	for i := range n {
		whole.Append(out.path.Transform(draw.Turn(360 * float64(i) / float64(n)).After(m)))
	}
	out.path = whole
}

// band reads a strip that runs on through two points.
func (s shapeReader) band(out *shape, f shapeForm, width, height float64) {
	const accepts = "x and y of two points that it runs on through, such as [0, 0, 24, 24]"
	for _, key := range []struct {
		name  string
		there bool
	}{{"turn", f.Turn != nil}, {"move", f.Move != nil}, {"around", f.Around != nil}} {
		if key.there {
			s.on(key.name)
			s.refused(key.name, "", "a band runs through its two points", "with a path or a circle")
			return
		}
	}
	s.on("band")
	if f.Line == nil {
		s.refused("line", "", "missing", "how wide the band is in millimetres, such as 2")
		return
	}
	v := s.numbers("band", f.Band, 4, accepts)
	if v == nil {
		return
	}
	across, down, ok := cellsAlong((v[2]-v[0])/width, (v[3]-v[1])/height)
	if !ok {
		s.refused("band", fmt.Sprint(f.Band), "does not meet itself in the cells beside", "along a side of the cell, from corner to corner, or so many cells along and so many down, up to "+strconv.Itoa(mostAlong))
		return
	}
	out.band = &band{from: draw.Point{X: v[0], Y: v[1]}, across: across, down: down}
}

// numbers reads a list of n numbers, or refuses it and gives none.
func (s shapeReader) numbers(key string, given []float64, n int, accepts string) []float64 {
	s.on(key)
	ok := len(given) == n
	for _, v := range given {
		ok = ok && math.Abs(v) <= words.Longest
	}
	if !ok {
		s.refused(key, fmt.Sprint(given), "", accepts)
		return nil
	}
	return given
}

func (s shapeReader) count(key string, given any, def, least, most int) int {
	if given == nil {
		return def
	}
	s.on(key)
	v, err := words.Count(key, plainly(given), least, most)
	s.refuse(err)
	return v
}

// length reads a length, 0 when there is none.
func (s shapeReader) length(key string, given any, least, most float64) float64 {
	if given == nil {
		return 0
	}
	s.on(key)
	v, err := words.Within(key, plainly(given), least, most)
	s.refuse(err)
	return v
}

// plainly is a value of a file as a person would type it.
func plainly(v any) string {
	if mm, ok := v.(float64); ok {
		return strconv.FormatFloat(mm, 'f', -1, 64) // not 1e-05
	}
	return fmt.Sprint(v)
}
