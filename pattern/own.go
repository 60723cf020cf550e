package pattern

import (
	"embed"
	"path"
	"strings"
)

// Own is a family that a file draws: a person's, or one of the project's.
type Own struct{ family }

// Parse reads a pattern file, which README describes; name is what its family is
// called. A refusal is one line that names the file's line, the key, what it was
// given and what would be accepted.
func Parse(name string, data []byte) (Own, error) {
	d, err := parseDrawing(data)
	if err != nil {
		return Own{}, err
	}
	return Own{family{name, d.about, d.bind}}, nil
}

// Info is the family as lists show it.
func (o Own) Info() Info { return o.info() }

// New settles the family's parameters as the function New does.
func (o Own) New(given map[string]Setting) (Motif, error) { return o.settle(given, nil) }

// The families that the project draws in files, one each.
//
//go:embed files/*.toml
var files embed.FS

func init() {
	entries, err := files.ReadDir("files")
	if err != nil {
		panic(err)
	}
	for _, e := range entries {
		data, err := files.ReadFile(path.Join("files", e.Name()))
		if err != nil {
			panic(err)
		}
		own, err := Parse(strings.TrimSuffix(e.Name(), ".toml"), data)
		if err != nil {
			panic(e.Name() + ": " + err.Error())
		}
		register(own.family)
	}
}
