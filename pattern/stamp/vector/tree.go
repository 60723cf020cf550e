package vector

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"

	"golang.org/x/text/encoding/htmlindex"
)

// element is one of SVG's own elements; those of other names' spaces are left out.
type element struct {
	name     string
	attrs    map[string]string
	classes  []string
	text     []byte // of a style sheet
	children []*element
}

const svgSpace = "http://www.w3.org/2000/svg"

var errBroken = errors.New("XML that is broken or cut short")

// entity is how some programs shorten the names of spaces.
var entity = regexp.MustCompile(`<!ENTITY\s+(\w+)\s+"([^"]*)"\s*>`)

// Is tells whether a file is SVG by its beginning.
func Is(data []byte) bool {
	head := bytes.TrimLeft(bytes.TrimPrefix(data[:min(len(data), 64<<10)], []byte("\xef\xbb\xbf")), " \t\r\n")
	return bytes.HasPrefix(head, []byte("<")) && (bytes.Contains(head, []byte("<svg")) || bytes.Contains(head, []byte(":svg")))
}

// parse reads the tree. Nothing outside the file is ever looked at.
func parse(data []byte) (*element, error) {
	d := xml.NewDecoder(bytes.NewReader(data))
	d.CharsetReader = func(label string, input io.Reader) (io.Reader, error) {
		known, err := htmlindex.Get(label)
		if err != nil {
			return nil, err
		}
		return known.NewDecoder().Reader(input), nil
	}
	var root *element
	var open []*element // nil for what is left out
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) && root != nil && len(open) == 0 {
			return root, nil
		}
		if err != nil {
			return nil, errBroken
		}
		switch token := token.(type) {
		case xml.Directive:
			if d.Entity == nil {
				if d.Entity, err = entities(token, data); err != nil {
					return nil, err
				}
			}
		case xml.StartElement:
			if len(open) >= 4*mostDepth {
				return nil, errors.New("elements too deep in one another")
			}
			e := known(token)
			switch {
			case root == nil && (e == nil || e.name != "svg"):
				return nil, errors.New("no SVG inside")
			case root == nil:
				root = e
			case len(open) == 0 || open[len(open)-1] == nil:
				e = nil
			case e != nil:
				parent := open[len(open)-1]
				parent.children = append(parent.children, e)
			}
			open = append(open, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if n := len(open); n > 0 && open[n-1] != nil && open[n-1].name == "style" {
				open[n-1].text = append(open[n-1].text, token...)
			}
		}
	}
}

// entities are the short words of a document type. It refuses those that would
// make a drawing of a few lines many megabytes.
func entities(directive xml.Directive, data []byte) (map[string]string, error) {
	const most = 100
	meant := map[string]string{}
	for _, m := range entity.FindAllSubmatch(directive, most) {
		meant[string(m[1])] = string(m[2])
	}
	size := 0
	for word, meaning := range meant {
		if size += bytes.Count(data, []byte("&"+word+";")) * len(meaning); size > MostBytes {
			return nil, errors.New("entities that stand for too much")
		}
	}
	return meant, nil
}

// known is an element of SVG, nil for others.
func known(token xml.StartElement) *element {
	if token.Name.Space != svgSpace && token.Name.Space != "" {
		return nil
	}
	e := &element{name: token.Name.Local, attrs: map[string]string{}}
	for _, a := range token.Attr {
		switch a.Name.Space {
		case "", "http://www.w3.org/1999/xlink":
			e.attrs[a.Name.Local] = a.Value
		}
	}
	e.classes = strings.Fields(e.attrs["class"])
	return e
}
