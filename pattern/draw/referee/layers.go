package referee

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Opened reads a PDF's objects.
func Opened(t testing.TB, file []byte) *model.Context {
	t.Helper()
	api.DisableConfigDir()
	ctx, err := api.ReadContext(bytes.NewReader(file), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatal(err)
	}
	if err := ctx.EnsurePageCount(); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// OnlyLayer is the same PDF with every optional-content group but one switched
// off, as a viewer's layer list would do it.
func OnlyLayer(t testing.TB, file []byte, name string) []byte {
	t.Helper()
	ctx := Opened(t, file)
	root, err := ctx.Catalog()
	if err != nil {
		t.Fatal(err)
	}
	properties, err := ctx.DereferenceDict(root["OCProperties"])
	if err != nil || properties == nil {
		t.Fatalf("no layers: %v", err)
	}
	groups, _ := ctx.DereferenceArray(properties["OCGs"])
	config, _ := ctx.DereferenceDict(properties["D"])
	var off types.Array
	found := false
	for _, ref := range groups {
		group, err := ctx.DereferenceDict(ref)
		if err != nil {
			t.Fatal(err)
		}
		if called, _ := ctx.DereferenceText(group["Name"]); called == name {
			found = true
		} else {
			off = append(off, ref)
		}
	}
	if !found {
		t.Fatalf("no layer %q", name)
	}
	config["OFF"] = off
	config["BaseState"] = types.Name("ON")
	var out bytes.Buffer
	if err := api.WriteContext(ctx, &out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
