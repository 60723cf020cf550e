package palettes

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// The text format of palettes that drawing programs exchange, as "GIMP Palette
// Format Version 2" describes it (developer.gimp.org/core/standards/gpl): a first
// line, then Name: and Columns:, comments after #, and a colour a line, red, green
// and blue of sRGB from 0 to 255 and perhaps a name. Ours are two of the comments.
const (
	gplFirst = "GIMP Palette"
	gplFor   = "# for: "
	gplAbout = "# about: "
)

// IsGPL tells such a file from its beginning.
func IsGPL(data []byte) bool { return bytes.HasPrefix(unmarked(data), []byte(gplFirst)) }

// unmarked is the file without the mark that some editors put before its text.
func unmarked(data []byte) []byte { return bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) }

// ParseGPL reads such a palette, whose first colour becomes the ground; name is
// what it is called. A refusal is one line that names the file's line.
func ParseGPL(name string, data []byte) (Palette, error) {
	if len(data) > MostFile {
		return Palette{}, fmt.Errorf("longer than %d kB", MostFile>>10)
	}
	lines := strings.Split(string(unmarked(data)), "\n")
	if strings.TrimSpace(lines[0]) != gplFirst {
		return Palette{}, fmt.Errorf("line 1: %w", &words.Refused{Field: "header", Given: printable(strings.TrimSpace(lines[0])), Accepts: gplFirst})
	}
	var p Palette
	p.Name = name
	var colours []draw.Colour
	for i, text := range lines[1:] {
		text = strings.TrimSpace(text)
		number := i + 2
		word, rest, _ := strings.Cut(text, ":")
		var err error
		switch {
		case text == "":
		case strings.HasPrefix(text, strings.TrimSpace(gplFor)):
			p.For, err = said("for", text, gplFor)
		case strings.HasPrefix(text, strings.TrimSpace(gplAbout)):
			p.About, err = said("about", text, gplAbout)
		case text[0] == '#':
		case len(colours) == 0 && word == "Name": // a palette is called as its file
		case len(colours) == 0 && word == "Columns":
			_, err = words.Count("Columns", strings.TrimSpace(rest), 0, 255)
		default:
			var c draw.Colour
			c, err = gplColour(text)
			if colours = append(colours, c); err == nil && len(colours) > 1+pattern.MostInks {
				err = &words.Refused{Field: "colours", Why: "too many", Accepts: fmt.Sprintf("a ground and 1 to %d inks", pattern.MostInks)}
			}
		}
		if err != nil {
			return Palette{}, fmt.Errorf("line %d: %w", number, err)
		}
	}
	if len(colours) < 2 {
		return Palette{}, fmt.Errorf("line %d: %w", len(lines), &words.Refused{Field: "colours", Given: fmt.Sprint(len(colours)), Accepts: fmt.Sprintf("a ground and 1 to %d inks", pattern.MostInks)})
	}
	p.Ground, p.Inks = colours[0], colours[1:]
	return p, nil
}

// said is what a comment of ours says.
func said(key, text, prefix string) (string, error) {
	text = strings.TrimSpace(strings.TrimPrefix(text, strings.TrimSpace(prefix)))
	return text, tidy(key, text)
}

// gplColour reads "180  71  46	russet".
func gplColour(text string) (draw.Colour, error) {
	fields := strings.Fields(text)
	var rgb [3]uint8
	for i, part := range []string{"red", "green", "blue"} {
		given := ""
		if i < len(fields) {
			given = fields[i]
		}
		v, err := strconv.ParseUint(given, 10, 8)
		if err != nil {
			return draw.Colour{}, &words.Refused{Field: part, Given: printable(given), Accepts: "a whole number from 0 to 255; a line is red, green, blue and perhaps a name"}
		}
		rgb[i] = uint8(v)
	}
	return draw.Colour{R: rgb[0], G: rgb[1], B: rgb[2]}, nil
}

// printable keeps what a file holds from doing something to a terminal.
func printable(s string) string { return strings.Trim(strconv.QuoteToGraphic(s), `"`) }

// WriteGPL writes the palette in the same format, ground first.
func (p Palette) WriteGPL(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\nName: %s\nColumns: %d\n", gplFirst, strings.ReplaceAll(p.Name, "-", " "), 1+len(p.Inks))
	if p.For != "" {
		fmt.Fprintf(&b, "%s%s\n", gplFor, p.For)
	}
	if p.About != "" {
		fmt.Fprintf(&b, "%s%s\n", gplAbout, p.About)
	}
	for i := range 1 + len(p.Inks) {
		c, name := p.Ink(i), "ground"
		if i > 0 {
			name = fmt.Sprintf("ink %d", i)
		}
		fmt.Fprintf(&b, "%3d %3d %3d\t%s\n", c.R, c.G, c.B, name)
	}
	_, err := io.WriteString(w, b.String())
	return err
}
