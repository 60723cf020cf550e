// Package desk is the local page: a server on this machine alone that fills the
// same request which the commands fill, and answers with pictures and files.
// Nothing a browser sends is ever taken for a path of the file system: files that
// words name come from what was uploaded, and from nowhere else.
package desk

import (
	"html/template"
	"io"
	"log"

	"golang.org/x/sync/semaphore"

	"underflap/liner/request"
)

// Desk is the page's server.
type Desk struct {
	shelf   request.Shelf
	log     *log.Logger
	limits  Limits
	html    *template.Template
	assets  map[string]asset
	uploads *uploads
	memory  *request.Memory

	// drawing for each purpose waits in a line of its own, so that a large download
	// does not hold up the pictures on the page
	previews, samples, downloads, decoding *turns
	receiving, sending                     *semaphore.Weighted // bytes of uploads and of downloads in memory
}

// New is a desk with a person's shelf, from which it reads and to which it never
// writes. What goes wrong inside is told on complaints, a line each.
func New(shelf request.Shelf, limits Limits, complaints io.Writer) (*Desk, error) {
	d := &Desk{shelf: shelf, limits: limits, log: log.New(complaints, "underflap: ", 0), uploads: newUploads(limits), memory: request.NewMemory()}
	var err error
	if d.html, d.assets, err = loadAssets(); err != nil {
		return nil, err
	}
	d.previews = newTurns(limits.Previews, limits.Waiting)
	d.samples = newTurns(limits.Samples, limits.Waiting)
	d.downloads = newTurns(limits.Downloads, limits.Waiting)
	d.decoding = newTurns(1, limits.Waiting)
	d.receiving, d.sending = semaphore.NewWeighted(limits.Receiving), semaphore.NewWeighted(limits.Sending)
	return d, nil
}
