package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// maintainer is who Debian's tools are told made the package. They want an address,
// and nobody has one: .invalid never is (RFC 2606).
const maintainer = "The underflap authors <authors@underflap.invalid>"

// debianVersion sorts before a release when git describes no release, and has no
// dash, which would part a revision off.
func (r release) debianVersion() string {
	version := strings.ReplaceAll(r.version, "-", "+")
	if version[0] < '0' || version[0] > '9' || !strings.Contains(version, ".") {
		version = "0~" + version
	}
	return version
}

// debian makes the package for a system through nfpm, and gives its file's name.
// The names of places are Debian's policy (12.1 man pages, 12.5 copyright, 12.7
// changelogs).
func (r release) debian(ctx context.Context, t target, program, papers string) (string, error) {
	room := filepath.Join(r.work, "deb-"+t.arch)
	if err := os.MkdirAll(room, 0o777); err != nil {
		return "", err
	}
	var contents strings.Builder
	put := func(src, dst, mode string) {
		fmt.Fprintf(&contents, "  - src: %q\n    dst: %s\n    file_info: {mode: %s, mtime: %s, owner: root, group: root}\n", src, dst, mode, r.made.Format(time.RFC3339))
	}
	gz := func(src string, data []byte, dst string) error {
		into := filepath.Join(room, filepath.Base(dst))
		if src != "" {
			var err error
			if data, err = os.ReadFile(src); err != nil {
				return err
			}
		}
		var b bytes.Buffer
		w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
		if err != nil {
			return err
		}
		if _, err := w.Write(data); err != nil {
			return err
		}
		if err := w.Close(); err != nil {
			return err
		}
		put(into, dst, "0644")
		return os.WriteFile(into, b.Bytes(), 0o666)
	}

	put(program, "/usr/bin/underflap", "0755")
	pages, err := filepath.Glob(filepath.Join(papers, "man", "*.1"))
	if err != nil {
		return "", err
	}
	for _, page := range pages {
		if err := gz(page, nil, "/usr/share/man/man1/"+filepath.Base(page)+".gz"); err != nil {
			return "", err
		}
	}
	for from, to := range map[string]string{
		"underflap.bash": "bash-completion/completions/underflap",
		"_underflap":     "zsh/vendor-completions/_underflap",
		"underflap.fish": "fish/vendor_completions.d/underflap.fish",
	} {
		put(filepath.Join(papers, "completions", from), "/usr/share/"+to, "0644")
	}
	const docs = "/usr/share/doc/underflap/"
	if err := gz("CHANGELOG.md", nil, docs+"changelog.gz"); err != nil {
		return "", err
	}
	if err := gz("", r.debianChangelog(), docs+"changelog.Debian.gz"); err != nil {
		return "", err
	}
	libraries, err := r.licences(ctx, t)
	if err != nil {
		return "", err
	}
	if err := gz("", libraries, docs+"licences-of-libraries.txt.gz"); err != nil {
		return "", err
	}
	terms, err := copyright()
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(filepath.Join(room, "copyright"), terms, 0o666); err != nil {
		return "", err
	}
	put(filepath.Join(room, "copyright"), docs+"copyright", "0644")

	config := fmt.Sprintf(`name: underflap
arch: %s
version: %q
version_schema: none
release: "1"
section: graphics
priority: optional
maintainer: %q
description: |-
  liner paper for the inside of envelopes
  Name or measure an envelope, choose a pattern and colours, and print liners
  that fit it at true size: with cut lines, fold marks and the working steps.
mtime: %s
recommends:
  - xdg-utils
contents:
%s`, t.arch, r.debianVersion(), maintainer, r.made.Format(time.RFC3339), contents.String())
	path := filepath.Join(room, "nfpm.yaml")
	if err := os.WriteFile(path, []byte(config), 0o666); err != nil {
		return "", err
	}
	name := fmt.Sprintf("underflap_%s-1_%s.deb", r.debianVersion(), t.arch)
	return name, r.tool(ctx, []string{"GOFLAGS="}, "go", "run", r.nfpm, "package", "--config", path, "--packager", "deb", "--target", filepath.Join(r.into, name))
}

// debianChangelog has the one entry that this package is, in the format of
// Debian's policy 4.4.
func (r release) debianChangelog() []byte {
	return fmt.Appendf(nil, "underflap (%s-1) unstable; urgency=medium\n\n  * What changed is in changelog.gz.\n\n -- %s  %s\n",
		r.debianVersion(), maintainer, r.made.Format(time.RFC1123Z))
}

// copyright is in Debian's machine-readable format 1.0. The libraries' licences,
// which are long, stand beside it.
func copyright() ([]byte, error) {
	own, err := os.ReadFile("LICENSE")
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	for line := range strings.Lines(string(own)) {
		if line = strings.TrimRight(line, " \t\r\n"); line == "" {
			line = "."
		}
		b.WriteString(" " + line + "\n")
	}
	return []byte("Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/\nUpstream-Name: underflap\n" +
		"Comment: The program is made of libraries whose licences are in\n licences-of-libraries.txt.gz beside this file.\n" +
		"\nFiles: *\nCopyright: 2026 the underflap authors\nLicense: Expat\n" + b.String()), nil
}
