package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
)

// target is a system that the program is built for.
type target struct{ os, arch string }

var targets = []target{
	{"linux", "amd64"}, {"linux", "arm64"},
	{"darwin", "amd64"}, {"darwin", "arm64"},
	{"windows", "amd64"}, {"windows", "arm64"},
}

// here is the system that this runs on.
var here = target{runtime.GOOS, runtime.GOARCH}

// program is the file that people start.
func (t target) program() string {
	if t.os == "windows" {
		return "underflap.exe"
	}
	return "underflap"
}

// ending is that of the archive people of the system open by a click.
func (t target) ending() string {
	if t.os == "windows" {
		return ".zip"
	}
	return ".tar.gz"
}

// folder is the archive's name, and that of the only folder in it.
func (r release) folder(t target) string {
	return "underflap-" + r.version + "-" + t.os + "-" + t.arch
}

// build makes a static program with the version stamped. Neither the folder it
// is built in nor the state of git leaves a trace in it.
func (r release) build(ctx context.Context, t target, path string) error {
	return r.tool(ctx, []string{"CGO_ENABLED=0", "GOOS=" + t.os, "GOARCH=" + t.arch, "GOFLAGS="},
		"go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid= -X main.stamped="+r.version, "-o", path, "./cmd/underflap")
}

// tool runs a program; what it says is told when it fails.
func (r release) tool(ctx context.Context, env []string, name string, args ...string) error {
	_, err := r.ask(ctx, env, name, args...)
	return err
}

// ask runs a program and gives what it prints.
func (r release) ask(ctx context.Context, env []string, name string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(append(os.Environ(), "SOURCE_DATE_EPOCH="+strconv.FormatInt(r.made.Unix(), 10), "TZ=UTC", "LC_ALL=C"), env...)
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			err = fmt.Errorf("%w: %s", err, strings.TrimSpace(string(exit.Stderr)))
		}
		return "", fmt.Errorf("%s %s: %w", name, args[0], err)
	}
	return string(out), nil
}

// papers writes the man pages and the completions, and gives their folder.
func (r release) papers(ctx context.Context) (string, error) {
	program, folder := filepath.Join(r.work, "here", here.program()), filepath.Join(r.work, "papers")
	if err := r.build(ctx, here, program); err != nil {
		return "", err
	}
	return folder, r.tool(ctx, nil, program, "manual", folder)
}
