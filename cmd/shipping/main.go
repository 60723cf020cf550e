// Shipping makes what people download: a static program for every system, packed
// with its papers, a Debian package, and the checksums of all. The same commit
// gives the same bytes. It is run by make dist, from the top of the repository.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"regexp"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, os.Args[1:]); err != nil {
		if !errors.Is(err, flag.ErrHelp) {
			fmt.Fprintln(os.Stderr, "shipping:", err)
		}
		os.Exit(1)
	}
}

// release is what all packages of one version have in common.
type release struct {
	version string    // as git describes it, without a leading v
	made    time.Time // of every file in a package: when the commit was made
	into    string    // the folder that packages go to
	nfpm    string    // the Go package that writes Debian packages; none are written without
	work    string    // a folder for what lies between
}

// plainVersion is what may stand in a file's name.
var plainVersion = regexp.MustCompile(`^[0-9A-Za-z][0-9A-Za-z.+~-]*$`)

func run(ctx context.Context, args []string) error {
	var r release
	var epoch int64
	set := flag.NewFlagSet("shipping", flag.ContinueOnError)
	set.StringVar(&r.version, "version", "", "version to stamp, such as 0.1.0")
	set.Int64Var(&epoch, "epoch", 0, "when the commit was made, in seconds since 1970")
	set.StringVar(&r.into, "into", "dist", "folder to write to")
	set.StringVar(&r.nfpm, "nfpm", "", "program that makes Debian packages, as go run takes it")
	if err := set.Parse(args); err != nil {
		return err
	}
	if len(r.version) > 1 && r.version[0] == 'v' && r.version[1] <= '9' {
		r.version = r.version[1:]
	}
	if !plainVersion.MatchString(r.version) {
		return fmt.Errorf("-version %q; accepted: letters, digits and . + ~ -, such as 0.1.0", r.version)
	}
	if epoch <= 0 {
		return fmt.Errorf("-epoch %d; accepted: seconds since 1970, such as what git log -1 --format=%%ct prints", epoch)
	}
	r.made = time.Unix(epoch, 0).UTC()
	var err error
	if r.work, err = os.MkdirTemp("", "shipping"); err != nil {
		return err
	}
	defer os.RemoveAll(r.work)
	return r.ship(ctx)
}

// ship writes every package and then their checksums.
func (r release) ship(ctx context.Context) error {
	if err := os.MkdirAll(r.into, 0o777); err != nil {
		return err
	}
	papers, err := r.papers(ctx)
	if err != nil {
		return err
	}
	var names []string
	for _, t := range targets {
		program := filepath.Join(r.work, t.os+"-"+t.arch, t.program())
		if err := r.build(ctx, t, program); err != nil {
			return err
		}
		files, err := r.packed(ctx, t, program, papers)
		if err != nil {
			return err
		}
		name := r.folder(t) + t.ending()
		if err := r.write(name, func(w *os.File) error { return pack(w, t.ending(), files, r.made) }); err != nil {
			return err
		}
		names = append(names, name)
		if t.os == "linux" && r.nfpm != "" {
			name, err := r.debian(ctx, t, program, papers)
			if err != nil {
				return err
			}
			names = append(names, name)
		}
	}
	return r.checksums(names)
}

// write makes a file of a package's folder anew.
func (r release) write(name string, fill func(*os.File) error) error {
	f, err := os.Create(filepath.Join(r.into, name))
	if err != nil {
		return err
	}
	if err := fill(f); err != nil {
		f.Close()
		return fmt.Errorf("%s: %w", name, err)
	}
	return f.Close()
}
