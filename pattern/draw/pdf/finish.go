package pdf

import (
	"bytes"
	"context"
	"fmt"
	"io"
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
// from the tray that holds this paper, under the document's title. Where a page has
// see-through pictures and all is grey, they are blended in grey too, or a printer
// would mix its greys of three inks.
func finish(until context.Context, w io.Writer, file []byte, grey []bool, order []int, width, height float64, made time.Time) error {
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
		if group := page.DictEntry("Group"); group != nil && grey[i-1] {
			group["CS"] = types.Name("DeviceGray")
		}
	}
	if err := repeat(ctx, root, order); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if err := until.Err(); err != nil {
		return err
	}
	var out bytes.Buffer
	if err := api.WriteContext(ctx, &out); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if err := until.Err(); err != nil {
		return err
	}
	done, err := settle(out.Bytes(), made)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	_, err = w.Write(done)
	return err
}

// repeat shows the stored pages in an order in which they may come again. A
// page that comes again is a page object of its own, with the same content and
// resources: one object may stand in the tree only once.
func repeat(ctx *model.Context, root types.Dict, order []int) error {
	if len(order) == ctx.PageCount {
		return nil
	}
	tree, err := ctx.DereferenceDict(root["Pages"])
	if err != nil {
		return err
	}
	stored, err := ctx.DereferenceArray(tree["Kids"])
	if err != nil {
		return err
	}
	var kids types.Array
	shown := map[int]bool{}
	for _, k := range order {
		kid := stored[k]
		if shown[k] {
			page, err := ctx.DereferenceDict(kid)
			if err != nil {
				return err
			}
			again, err := ctx.IndRefForNewObject(page.Clone())
			if err != nil {
				return err
			}
			kid = *again
		}
		shown[k] = true
		kids = append(kids, kid)
	}
	tree["Kids"], tree["Count"] = kids, types.Integer(len(kids))
	ctx.PageCount = len(kids)
	return nil
}
