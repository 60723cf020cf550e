package desk

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"

	"underflap/liner/request"
	"underflap/palettes/derived"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// save answers with the design as a job file that carries every file it names.
func (d *Desk) save(w http.ResponseWriter, r *http.Request) error {
	f, err := d.fromQuery(r)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := d.packed(r.Context(), f, &b); err != nil {
		return err
	}
	return d.send(w, "application/toml", "attachment", f.jobName(), b.Bytes())
}

// packed writes a job file into b, which takes memory: one at a time.
func (d *Desk) packed(ctx context.Context, f form, b *bytes.Buffer) error {
	_, done, err := d.downloads.within(ctx, d.limits.DownloadTime)
	if err != nil {
		return err
	}
	defer done()
	job, err := request.PackJob(f.Look)
	if err != nil {
		return err
	}
	return request.WriteJob(b, job)
}

// jobName is what the file of a design is called: by what was chosen.
func (f form) jobName() string {
	parts := []string{"design"}
	for _, word := range []string{f.Envelope, f.Card, f.Pattern, f.Palette} {
		parts = append(parts, addedWord.ReplaceAllString(word, ""))
	}
	return slug(parts) + ".toml"
}

// opened is a design as the page takes it: every word that was chosen, by its field.
type opened struct {
	Words   map[string][]string `json:"words"`
	Art     *art                `json:"art,omitempty"`
	Remarks []string            `json:"remarks"`
}

// open reads a job file. The files it carries are kept as if they had been added
// one by one; others that it names are not looked for.
func (d *Desk) open(w http.ResponseWriter, r *http.Request) error {
	data, _, done, err := d.uploadToDecode(w, r, request.MostJob)
	if err != nil {
		return err
	}
	defer done()
	job, err := request.ParseJob(data)
	var slip *filed.Slip
	if errors.As(err, &slip) {
		return &refusals{http.StatusUnprocessableEntity, []problem{{Says: capital(d.speechOf(r).line(words.Printable(slip.Error()))) + "."}}}
	}
	if err != nil {
		return err
	}
	out := opened{Words: map[string][]string{}, Remarks: []string{}}
	look := job.Look
	err = look.Rename(func(field, word, file string) (string, error) {
		content, carried := job.Carried[file]
		if file == "" {
			return word, nil
		}
		if !carried {
			out.Remarks = append(out.Remarks, fmt.Sprintf("%s is not in the design itself; add it again with its button", words.Shorten(words.Printable(file))))
			return file, nil
		}
		if field != "stamp" && derived.Photo(word) == "" {
			return d.uploads.add(file, content), nil
		}
		added, err := d.keepArt(field, file, content)
		if field == "stamp" {
			out.Art = &added
		}
		return added.Stamp, err
	})
	if err != nil {
		return err
	}
	for _, field := range look.Fields() {
		if said := field.Said(); len(said) > 0 {
			out.Words[field.Name] = said
		}
	}
	answerJSON(w, http.StatusOK, out)
	return nil
}
