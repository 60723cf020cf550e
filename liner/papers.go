package liner

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"

	"underflap/pattern/words"
)

//go:embed papers.csv
var paperTable string

// Paper is a sheet to print on, width and height as it is fed.
type Paper struct {
	Name   string
	Short  string
	Width  float64
	Height float64
	Source string
}

// Craft tells whether the paper is a square sheet of the kind sold with a
// pattern printed on it.
func (p Paper) Craft() bool { return strings.Contains(p.Name, "craft") }

// Common tells whether the paper is one that shops for home printers and for
// crafts sell everywhere (common practice, no source).
func (p Paper) Common() bool {
	for _, rare := range []string{"jis_", "iso_b", "na_super"} {
		if strings.HasPrefix(p.Name, rare) {
			return false
		}
	}
	return true
}

// Papers is the table of papers.
var Papers = sync.OnceValue(func() []Paper {
	return rows(paperTable, func(cell func(string) string) (Paper, error) {
		w, h, err := SelfDescribed(cell("name"))
		return Paper{Name: cell("name"), Short: cell("trade"), Width: w, Height: h, Source: cell("source")}, err
	})
})

// PaperNames lists the short name of every paper.
func PaperNames() []string {
	var names []string
	for _, p := range Papers() {
		names = append(names, p.Short)
	}
	return names
}

// ParsePaper finds a paper by name or reads its size, "305x305".
func ParsePaper(field, given string) (Paper, error) {
	for _, p := range Papers() {
		if plainName(p.Name) == plainName(given) || plainName(p.Short) == plainName(given) {
			return p, nil
		}
	}
	refused := &words.Refused{Field: field, Given: given, Accepts: fmt.Sprintf("%s, or width x height from %s to %s",
		strings.Join(PaperNames(), ", "), words.MM(leastPaper), words.MM(mostPaper))}
	w, h, err := words.Size(field, given)
	if err != nil || min(w, h) < leastPaper || max(w, h) > mostPaper {
		return Paper{}, refused
	}
	size := fmt.Sprintf("%gx%gmm", w, h)
	return Paper{Name: "custom_sheet_" + size, Short: strings.Replace(strings.TrimSuffix(size, "mm"), "x", " × ", 1) + " mm", Width: w, Height: h}, nil
}

const leastPaper, mostPaper = 50.0, 1300.0
