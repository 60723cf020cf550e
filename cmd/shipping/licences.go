package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// licenceFile is how libraries name what must go with them.
var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents)`)

// licences gathers those of every library that the program for a system is made
// of, and Go's own, from where the Go tool keeps them. A library without one is
// an error, because it could not be given away.
func (r release) licences(ctx context.Context, t target) ([]byte, error) {
	listed, err := r.ask(ctx, []string{"CGO_ENABLED=0", "GOOS=" + t.os, "GOARCH=" + t.arch, "GOFLAGS="}, "go", "list", "-deps",
		"-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/underflap")
	if err != nil {
		return nil, err
	}
	root, err := r.ask(ctx, nil, "go", "env", "GOROOT", "GOVERSION")
	if err != nil {
		return nil, err
	}
	goroot, goversion, _ := strings.Cut(strings.TrimSpace(root), "\n")
	lines := strings.Split(strings.TrimSpace(listed), "\n")
	slices.Sort(lines)
	lines = append([]string{"The Go standard library\t" + goversion + "\t" + goroot}, slices.Compact(lines)...)

	rule := strings.Repeat("=", 72)
	var b bytes.Buffer
	b.WriteString("Underflap is made of these libraries. Their licences follow, each under its name.\n")
	for _, line := range lines {
		part := strings.Split(line, "\t")
		if len(part) != 3 {
			continue // a package of the standard library or our own
		}
		text, err := licenceOf(part[2])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", part[0], err)
		}
		fmt.Fprintf(&b, "\n%s\n%s %s\n%s\n\n%s", rule, part[0], part[1], rule, text)
	}
	return b.Bytes(), nil
}

// licenceOf reads what a module's top folder has of licences.
func licenceOf(folder string) ([]byte, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	for _, e := range entries {
		if e.IsDir() || !licenceFile.MatchString(e.Name()) {
			continue
		}
		text, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&b, "%s\n\n", bytes.TrimSpace(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))))
	}
	if b.Len() == 0 {
		return nil, fmt.Errorf("no file LICENSE, COPYING or NOTICE in its top folder")
	}
	return b.Bytes(), nil
}
