package desk

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"html/template"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strings"
)

//go:embed assets
var embedded embed.FS

// asset is a file of the page.
type asset struct {
	data []byte
	kind string // its media type
	tag  string // of its content
}

// kinds of asset, not left to what a machine's own tables say.
var kinds = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml", ".png": "image/png"}

// loadAssets reads what is built into the program: the page, and what it asks for.
func loadAssets() (*template.Template, map[string]asset, error) {
	files := map[string]asset{}
	err := fs.WalkDir(embedded, "assets", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || path.Ext(name) == ".html" {
			return err
		}
		data, err := embedded.ReadFile(name)
		kind := kinds[path.Ext(name)]
		if kind == "" {
			kind = mime.TypeByExtension(path.Ext(name))
		}
		files[strings.TrimPrefix(name, "assets/")] = asset{data, kind, tagOf(data)}
		return err
	})
	if err != nil {
		return nil, nil, err
	}
	html, err := template.New("page.html").ParseFS(embedded, "assets/*.html")
	return html, files, err
}

// tagOf is an entity tag (RFC 9110, 8.8.3) of some content.
func tagOf(data []byte) string {
	sum := sha256.Sum256(data)
	return `"` + hex.EncodeToString(sum[:8]) + `"`
}

func (d *Desk) asset(w http.ResponseWriter, r *http.Request) error {
	file, ok := d.assets[r.PathValue("name")]
	if !ok {
		return errNothingHere
	}
	w.Header().Set("Cache-Control", "no-cache") // asked again each time, so that a new version shows
	tagged(w, r, file.kind, file.tag, file.data)
	return nil
}

// tagged answers with data, or with no more than that the browser has it already.
func tagged(w http.ResponseWriter, r *http.Request, kind, tag string, data []byte) {
	w.Header().Set("ETag", tag)
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	w.Header().Set("Content-Type", kind)
	_, _ = w.Write(data) // a browser that left needs no answer
}
