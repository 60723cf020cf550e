package palettes

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Limits of a palette file.
const (
	MostFile  = 1 << 16 // bytes
	mostWords = 100     // characters of for and about
)

// form is a palette as its TOML file says it.
type form struct {
	For        string   `toml:"for,omitempty"`
	About      string   `toml:"about,omitempty"`
	Ground     string   `toml:"ground"`
	Inks       []string `toml:"inks"`
	Indistinct bool     `toml:"indistinct,omitempty"`
}

// Parse reads a palette in TOML; name is what it is called. A refusal is one
// line that names the file's line, the key, what it was given and what would be
// accepted.
func Parse(name string, data []byte) (Palette, error) {
	if len(data) > MostFile {
		return Palette{}, fmt.Errorf("longer than %d kB", MostFile>>10)
	}
	var f form
	if err := filed.Decode(data, &f); err != nil {
		var slip *filed.Slip
		if errors.As(err, &slip) && strings.HasPrefix(slip.Why, "unknown key") {
			slip.Why += "; accepted: for, about, ground, inks, indistinct"
		}
		return Palette{}, err
	}
	places := filed.PlacesIn(data)
	at := func(key string, err error) error { return fmt.Errorf("line %d: %w", max(1, places[key].Line), err) }

	p := Palette{For: f.For, About: f.About, Indistinct: f.Indistinct}
	p.Name = name
	for _, said := range [][2]string{{"for", f.For}, {"about", f.About}} {
		if err := tidy(said[0], said[1]); err != nil {
			return Palette{}, at(said[0], err)
		}
	}
	var err error
	if p.Ground, err = Colour("ground", f.Ground); err != nil {
		return Palette{}, at("ground", err)
	}
	if p.Inks, err = inks("ink %d", f.Inks); err != nil {
		return Palette{}, at("inks", err)
	}
	return p, nil
}

// ParseInks reads inks as a person types them, parted by commas.
func ParseInks(field, given string) ([]draw.Colour, error) {
	if strings.TrimSpace(given) == "" {
		return nil, &words.Refused{Field: field, Accepts: "colours parted by commas, such as #b4472e, goldenrod"}
	}
	return inks(field, strings.Split(given, ","))
}

// inks reads a list of colours; field may hold a %d for which one.
func inks(field string, list []string) ([]draw.Colour, error) {
	if n := len(list); n < 1 || n > pattern.MostInks {
		return nil, &words.Refused{Field: "inks", Why: fmt.Sprintf("%d given", n), Accepts: fmt.Sprintf("1 to %d inks", pattern.MostInks)}
	}
	var inks []draw.Colour
	for i, ink := range list {
		name := field
		if strings.Contains(field, "%d") {
			name = fmt.Sprintf(field, i+1)
		}
		c, err := Colour(name, ink)
		if err != nil {
			return nil, err
		}
		inks = append(inks, c)
	}
	return inks, nil
}

// tidy refuses words that would not stand on one line of a list.
func tidy(key, text string) error {
	strange := func(r rune) bool { return !unicode.IsPrint(r) }
	if !utf8.ValidString(text) || utf8.RuneCountInString(text) > mostWords || strings.ContainsFunc(text, strange) {
		return &words.Refused{Field: key, Given: strings.Map(func(r rune) rune {
			if strange(r) {
				return '�'
			}
			return r
		}, text), Accepts: fmt.Sprintf("up to %d characters on one line", mostWords)}
	}
	return nil
}

// WriteTOML writes the file that Parse reads.
func (p Palette) WriteTOML(w io.Writer) error {
	f := form{For: p.For, About: p.About, Ground: p.Ground.Hex(), Indistinct: p.Indistinct}
	for _, c := range p.Inks {
		f.Inks = append(f.Inks, c.Hex())
	}
	var b bytes.Buffer
	encoder := toml.NewEncoder(&b)
	encoder.SetArraysMultiline(false)
	if err := encoder.Encode(f); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}
