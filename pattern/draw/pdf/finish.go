package pdf

import (
	"bytes"
	"crypto/md5"
	"fmt"
	"io"
	"regexp"
	"sync"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// noConfigDir keeps the library from writing a configuration into the user's home.
var noConfigDir = sync.OnceFunc(api.DisableConfigDir)

// finish adds what the first library cannot say: the exact paper size, and the
// viewer preferences of ISO 32000-1, 12.2: print at actual size, on one side,
// from the tray that holds this paper, under the document's title.
func finish(w io.Writer, file []byte, width, height float64, made time.Time) error {
	noConfigDir()
	conf := model.NewDefaultConfiguration()
	conf.WriteObjectStream = false
	conf.WriteXRefStream = false
	ctx, err := api.ReadContext(bytes.NewReader(file), conf)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if err := ctx.EnsurePageCount(); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	root, err := ctx.Catalog()
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	root.Delete("Names") // empty
	root["ViewerPreferences"] = types.Dict{
		"PrintScaling":      types.Name("None"),
		"DisplayDocTitle":   types.Boolean(true),
		"Duplex":            types.Name("Simplex"),
		"PickTrayByPDFSize": types.Boolean(true),
	}
	for i := 1; i <= ctx.PageCount; i++ {
		page, _, _, err := ctx.PageDict(i, false)
		if err != nil {
			return fmt.Errorf("pdf: %w", err)
		}
		page["MediaBox"] = types.Array{types.Integer(0), types.Integer(0), types.Float(width), types.Float(height)}
	}
	var out bytes.Buffer
	if err := api.WriteContext(ctx, &out); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	done, err := settle(out.Bytes(), made)
	if err != nil {
		return err
	}
	_, err = w.Write(done)
	return err
}

var (
	datePart     = regexp.MustCompile(`/(?:CreationDate|ModDate) ?\(D:[^)]*\)`)
	producerPart = regexp.MustCompile(`/Producer ?\([^)]*\)`)
	idPart       = regexp.MustCompile(`/ID ?\[ ?<[0-9A-Fa-f]{32}> ?<[0-9A-Fa-f]{32}> ?\]`)
)

// settle replaces the entries that the second library fills from the clock, so
// that the same pages give the same bytes. Every replacement keeps its length,
// so offsets stay true: blanks are allowed between entries of a dictionary.
func settle(file []byte, made time.Time) ([]byte, error) {
	blank := func(part []byte, with string) []byte {
		out := bytes.Repeat([]byte(" "), len(part))
		copy(out, with)
		return out
	}
	if n := len(datePart.FindAll(file, -1)); n != 2 {
		return nil, fmt.Errorf("pdf: found %d dates to settle, not 2", n)
	}
	file = datePart.ReplaceAllFunc(file, func(part []byte) []byte {
		if made.IsZero() {
			return blank(part, "")
		}
		key, _, _ := bytes.Cut(part, []byte("("))
		return blank(part, string(key)+"(D:"+made.UTC().Format("20060102150405Z")+")")
	})
	file = producerPart.ReplaceAllFunc(file, func(part []byte) []byte { return blank(part, "/Producer(underflap)") })
	if n := len(idPart.FindAll(file, -1)); n != 1 {
		return nil, fmt.Errorf("pdf: found %d file identifiers to settle, not 1", n)
	}
	file = idPart.ReplaceAllFunc(file, func(part []byte) []byte { return blank(part, "") })
	sum := md5.Sum(file) // a file identifier, ISO 32000-1, 14.4
	at := bytes.LastIndex(file, []byte("trailer"))
	where := bytes.Index(file[at:], bytes.Repeat([]byte(" "), 70))
	if at < 0 || where < 0 {
		return nil, fmt.Errorf("pdf: no place for the file identifier")
	}
	copy(file[at+where:], fmt.Sprintf("/ID[<%X><%X>]", sum, sum))
	return file, nil
}
