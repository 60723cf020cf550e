package desk

import (
	"net/http"

	"underflap/liner/request"
	"underflap/pattern/stamp"
	"underflap/pattern/words/filed"
)

// photo finds the colours of a photo. Nothing of it is kept.
func (d *Desk) photo(w http.ResponseWriter, r *http.Request) error {
	data, ctx, done, err := d.uploadToDecode(w, r, d.limits.UploadBytes)
	if err != nil {
		return err
	}
	defer done()
	name := fileName(r.URL.Query().Get("name"))
	if _, err := stamp.Inspect("palette", name, data, d.limits.UploadPixels); err != nil {
		return err
	}
	p, remarks, err := request.ResolvePalette(ctx, request.Words{Palette: "photo:" + name, Files: filed.Held{name: data}})
	if err != nil {
		return err
	}
	inks := []string{}
	for _, ink := range p.Inks {
		inks = append(inks, ink.Hex())
	}
	answerJSON(w, http.StatusOK, map[string]any{"ground": p.Ground.Hex(), "inks": inks, "remarks": d.speechOf(r).lines(remarks)})
	return nil
}
