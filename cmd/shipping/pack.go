package main

import (
	"archive/tar"
	"archive/zip"
	"cmp"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// file is one of a package: its name there, with slashes, and what it holds.
type file struct {
	name string
	data []byte
	mode fs.FileMode
}

// pack writes files as .tar.gz or .zip, sorted by name, all of one time and of
// nobody, so that the same files give the same bytes.
func pack(w io.Writer, ending string, files []file, made time.Time) error {
	files = slices.SortedFunc(slices.Values(files), func(a, b file) int { return cmp.Compare(a.name, b.name) })
	if ending == ".zip" {
		return packZip(w, files, made)
	}
	packed, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	t := tar.NewWriter(packed)
	for _, f := range files {
		header := &tar.Header{Typeflag: tar.TypeReg, Name: f.name, Size: int64(len(f.data)), Mode: int64(f.mode), ModTime: made, Format: tar.FormatPAX}
		if err := t.WriteHeader(header); err != nil {
			return err
		}
		if _, err := t.Write(f.data); err != nil {
			return err
		}
	}
	if err := t.Close(); err != nil {
		return err
	}
	return packed.Close()
}

func packZip(w io.Writer, files []file, made time.Time) error {
	z := zip.NewWriter(w)
	for _, f := range files {
		header := &zip.FileHeader{Name: f.name, Method: zip.Deflate, Modified: made}
		header.SetMode(f.mode)
		into, err := z.CreateHeader(header)
		if err != nil {
			return err
		}
		if _, err := into.Write(f.data); err != nil {
			return err
		}
	}
	return z.Close()
}

// read takes files of a folder on the disk into a folder of a package.
func read(folder, into string) (files []file, err error) {
	err = filepath.WalkDir(folder, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(folder, p)
		if name == "." { // the folder is a file
			name = ""
		}
		files = append(files, file{path.Join(into, filepath.ToSlash(name)), data, 0o644})
		return err
	})
	return files, err
}

// link is one of the README to a file beside it.
var link = regexp.MustCompile(`\]\(([^)#:\s]+)\)`)

// linked are the files and folders that the README links to, once each, in
// order of their names.
func linked(readme []byte) []string {
	var out []string
	for _, found := range link.FindAllSubmatch(readme, -1) {
		name := path.Clean(string(found[1]))
		if !path.IsAbs(name) && !strings.HasPrefix(name, "..") {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// leaflets are what is packed with the program whatever the README links to.
var leaflets = []string{"README.md", "LICENSE", "CHANGELOG.md"}

// packed are the files of an archive: the program, the README and what it links
// to, man pages, completions, and the licences of what the program is made of.
func (r release) packed(ctx context.Context, t target, program, papers string) ([]file, error) {
	top := r.folder(t)
	data, err := os.ReadFile(program)
	if err != nil {
		return nil, err
	}
	files := []file{{path.Join(top, t.program()), data, 0o755}}
	readme, err := os.ReadFile("README.md")
	if err != nil {
		return nil, err
	}
	names := append(slices.Clone(leaflets), linked(readme)...)
	slices.Sort(names)
	for _, name := range slices.Compact(names) {
		more, err := read(filepath.FromSlash(name), path.Join(top, name))
		if err != nil {
			return nil, err
		}
		files = append(files, more...)
	}
	more, err := read(papers, top)
	if err != nil {
		return nil, err
	}
	licences, err := r.licences(ctx, t)
	if err != nil {
		return nil, err
	}
	return append(append(files, more...), file{path.Join(top, "LICENCES-OF-LIBRARIES.txt"), licences, 0o644}), nil
}

// checksums writes SHA256SUMS as sha256sum -c reads it.
func (r release) checksums(names []string) error {
	slices.Sort(names)
	return r.write("SHA256SUMS", func(w *os.File) error {
		for _, name := range names {
			data, err := os.ReadFile(filepath.Join(r.into, name))
			if err != nil {
				return err
			}
			if _, err := fmt.Fprintf(w, "%x  %s\n", sha256.Sum256(data), name); err != nil {
				return err
			}
		}
		return nil
	})
}
