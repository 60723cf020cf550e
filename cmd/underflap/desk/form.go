package desk

import (
	"fmt"
	"mime"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"underflap/liner/request"
	"underflap/pattern/words"
)

// Bounds of what one field may say.
const (
	mostValue  = 2000 // bytes
	mostListed = 60   // values of a field that may be given often
)

// form is what a browser sent: the words of a picture and its sheets, and the
// person's way to read lengths.
type form struct {
	request.Look
	speech
	dpi string // of a download
}

// fromQuery reads the words that stand in an address. extra are fields beside them.
func (d *Desk) fromQuery(r *http.Request, extra ...string) (form, error) {
	values, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return form{}, &statusError{http.StatusBadRequest, "The address cannot be read."}
	}
	return d.read(values, extra...)
}

// fromBody reads the words that a script sent.
func (d *Desk) fromBody(w http.ResponseWriter, r *http.Request) (form, error) {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/x-www-form-urlencoded" {
		return form{}, &statusError{http.StatusUnsupportedMediaType, "A form is expected here."}
	}
	data, err := body(w, r, r.Body, d.limits.FormBytes)
	if err != nil {
		return form{}, err
	}
	values, err := url.ParseQuery(string(data))
	if err != nil {
		return form{}, &statusError{http.StatusBadRequest, "The form cannot be read."}
	}
	return d.read(values)
}

// read fills a request from the fields of a form, by the table of words. A field
// that nobody knows, or that says one thing twice, comes from no page of ours and
// is refused as a whole; what a person may have typed is a problem of its field.
func (d *Desk) read(values url.Values, extra ...string) (f form, err error) {
	f.Shelf, f.Files, f.Memory = d.shelf, d.uploads, d.memory
	f.shelf = d.shelf.Dir
	known := f.Fields()
	var problems []problem
	for name, given := range values {
		i := slices.IndexFunc(known, func(field request.Field) bool { return field.Name == name })
		switch {
		case name == "units" || slices.Contains(extra, name):
		case i < 0:
			return f, unknown(name, "there is no such field")
		}
		list := i >= 0 && known[i].List != nil
		if len(given) > 1 && !list || len(given) > mostListed {
			return f, unknown(name, fmt.Sprintf("it is given %d times", len(given)))
		}
		for _, word := range given {
			if len(word) > mostValue {
				problems = append(problems, problem{Field: name, Says: fmt.Sprintf("This is too long: %d characters at most.", mostValue), Given: words.Shorten(word)})
			}
		}
	}
	if len(problems) > 0 {
		return f, &refusals{http.StatusUnprocessableEntity, problems}
	}
	switch units := values.Get("units"); units {
	case "", "mm":
	case "in":
		f.inches = true
	default:
		return f, unknown("units", "mm and in are known")
	}
	f.dpi = values.Get("dpi")
	for _, field := range known {
		given := values[field.Name]
		switch {
		case field.Mark != nil:
			switch values.Get(field.Name) {
			case "":
			case "true":
				*field.Mark = true
			default:
				return f, unknown(field.Name, "it is true or left out")
			}
		case field.List != nil:
			for _, word := range given {
				if strings.TrimSpace(word) != "" {
					*field.List = append(*field.List, word)
				}
			}
		case len(given) == 1 && strings.TrimSpace(given[0]) != "":
			*field.Text = given[0]
		}
	}
	if f.inches {
		readInches(&f.Look)
	}
	return f, nil
}

func unknown(name, why string) error {
	return &refusals{http.StatusBadRequest, []problem{{Field: words.Shorten(words.Printable(name)), Says: "This form was not made by the desk: " + why + "."}}}
}

// sheetWords are the words for the sheets: a blank one leaves out the pattern, which
// the picture of the envelope still shows.
func (f form) sheetWords() request.Words {
	w := f.Words
	if w.Blank {
		for _, field := range w.Fields() {
			if field.Group == request.PatternGroup {
				field.Clear()
			}
		}
	}
	return w
}
