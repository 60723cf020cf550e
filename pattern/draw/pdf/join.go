package pdf

import (
	"context"
	"crypto/md5"
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"io"
	"slices"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Join writes the pages of files that Write made, one file after the other, to w as
// one file. Pages keep their sizes and boxes, and layers of one name become one
// layer. Title, language and viewer preferences are those of the first file; the
// creation time is made, or none when that is zero. What several files hold alike, a
// person's picture say, is stored once. The same files give the same bytes.
//
// A mark, where it is not empty, says in hex what the file was made of; Marked reads
// it back.
//
// Files are read one at a time, so that no more than one is in memory. When ctx ends
// Join stops and gives the context's error.
func Join(ctx context.Context, w io.Writer, parts []io.ReadSeeker, made time.Time, mark string) error {
	if len(parts) == 0 {
		return errors.New("pdf: no files to join")
	}
	j := &joiner{w: w, id: md5.New(), layers: map[string]types.IndirectRef{}, same: map[[sha256.Size]byte]types.IndirectRef{}}
	j.print(header)
	j.tree = j.place()
	for i, part := range parts {
		if err := j.part(ctx, part); err != nil {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			return fmt.Errorf("pdf: file %d of %d to join: %w", i+1, len(parts), err)
		}
	}
	j.end(made, mark)
	return j.err
}

// joiner writes each object once it is complete, what it refers to before it.
type joiner struct {
	w       io.Writer
	id      hash.Hash // of all that is written
	err     error     // the first of writing
	at      int64
	offsets []int64 // of object 1 and those after it

	root, info types.Dict // the first file's
	tree       types.IndirectRef
	pages      types.Array
	layers     map[string]types.IndirectRef
	order, off types.Array // layers as they are met, and those that begin switched off
	same       map[[sha256.Size]byte]types.IndirectRef
}

func (j *joiner) print(parts ...string) {
	for _, part := range parts {
		j.write([]byte(part))
	}
}

func (j *joiner) write(b []byte) {
	if j.err != nil {
		return
	}
	_, j.err = j.w.Write(b)
	j.id.Write(b)
	j.at += int64(len(b))
}

// place keeps a number for an object that is written later.
func (j *joiner) place() types.IndirectRef {
	j.offsets = append(j.offsets, 0)
	return *types.NewIndirectRef(len(j.offsets), 0)
}

// put writes an object; data is a stream's.
func (j *joiner) put(ref types.IndirectRef, o types.Object, data []byte) {
	n := ref.ObjectNumber.Value()
	j.offsets[n-1] = j.at
	j.print(fmt.Sprintf("%d 0 obj\n", n), o.PDFString())
	if data != nil {
		j.print("\nstream\n")
		j.write(data)
		j.print("\nendstream")
	}
	j.print("\nendobj\n")
}

// part writes the pages of one file.
func (j *joiner) part(until context.Context, file io.ReadSeeker) error {
	noConfigDir()
	ctx, err := pdfcpu.ReadWithContext(until, file, model.NewDefaultConfiguration())
	if err != nil {
		return err
	}
	if err := ctx.EnsurePageCount(); err != nil {
		return err
	}
	root, err := ctx.Catalog()
	if err != nil {
		return err
	}
	p := &joined{joiner: j, until: until, ctx: ctx, met: map[int]types.IndirectRef{}, within: map[int]bool{}}
	if j.root == nil {
		if err := p.first(root); err != nil {
			return err
		}
	}
	if err := p.layersOf(root); err != nil {
		return err
	}
	for i := 1; i <= ctx.PageCount; i++ {
		page, _, _, err := ctx.PageDict(i, false)
		if err != nil {
			return err
		}
		page = page.Clone().(types.Dict)
		page.Delete("Parent")
		if err := p.carry(page); err != nil {
			return err
		}
		page["Parent"] = j.tree
		ref := j.place()
		j.put(ref, page, nil)
		j.pages = append(j.pages, ref)
		if j.err != nil {
			return j.err
		}
	}
	return nil
}

// end writes what stands over the pages, and the table of all objects (ISO
// 32000-1, 7.5).
func (j *joiner) end(made time.Time, mark string) {
	j.put(j.tree, types.Dict{"Type": types.Name("Pages"), "Kids": j.pages, "Count": types.Integer(len(j.pages))}, nil)
	if len(j.order) > 0 {
		j.root["OCProperties"] = types.Dict{"OCGs": j.order, "D": types.Dict{"Order": slices.Clone(j.order), "OFF": j.off}}
	}
	j.root["Pages"] = j.tree
	root, info := j.place(), j.place()
	j.put(root, j.root, nil)
	for _, key := range []string{"CreationDate", "ModDate"} {
		j.info.Delete(key)
		if !made.IsZero() {
			j.info[key] = types.StringLiteral(date(made))
		}
	}
	j.info["Producer"] = types.StringLiteral(producer)
	delete(j.info, markKey)
	if mark != "" {
		j.info[markKey] = types.StringLiteral(mark)
	}
	j.put(info, j.info, nil)

	table, size := j.at, len(j.offsets)+1
	j.print(fmt.Sprintf("xref\n0 %d\n0000000000 65535 f \n", size))
	for _, offset := range j.offsets {
		j.print(fmt.Sprintf("%010d 00000 n \n", offset))
	}
	id := j.id.Sum(nil)
	j.print(fmt.Sprintf("trailer\n<</Size %d /Root %s /Info %s /ID [<%X><%X>]>>\nstartxref\n%d\n%%%%EOF\n", size, root.PDFString(), info.PDFString(), id, id, table))
}
