package main

import (
	"encoding/json"
	"fmt"
	"html"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

func init() { maps.Copy(scriptCommands, wordCommands) }

// wordCommands are the commands of stories about what a file says.
var wordCommands = map[string]func(ts *testscript.TestScript, neg bool, args []string){
	// says FILE PATTERN: the words on a drawn SVG, in the order they stand in
	// the file and with one blank between them, match; with !, they do not
	"says": func(ts *testscript.TestScript, neg bool, args []string) {
		if len(args) != 2 {
			ts.Fatalf("takes a file and a pattern")
		}
		words := wordsOf(ts.ReadFile(args[0]))
		if regexp.MustCompile(args[1]).MatchString(words) == neg {
			ts.Fatalf("%s says %q", args[0], words)
		}
	},
	// json FILE PATH=VALUE...: a file of one JSON value; a path leads into it by
	// names, numbers of elements, and count for how many there are
	"json": command(-2, func(ts *testscript.TestScript, args []string) {
		var whole any
		ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &whole))
		for _, arg := range args[1:] {
			path, want, _ := strings.Cut(arg, "=")
			if got, err := at(whole, path); err != nil || got != want {
				ts.Fatalf("%s is %q, want %q (%v)", path, got, want, err)
			}
		}
	}),
	// same FILE FILE PATH...: two JSON files have the same value there
	"same": command(-3, func(ts *testscript.TestScript, args []string) {
		var a, b any
		ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &a))
		ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[1])), &b))
		for _, path := range args[2:] {
			one, errA := at(a, path)
			other, errB := at(b, path)
			if one != other || errA != nil || errB != nil {
				ts.Fatalf("%s is %.200q and %.200q (%v, %v)", path, one, other, errA, errB)
			}
		}
	}),
}

var label = regexp.MustCompile(`aria-label="([^"]*)"`)

// wordsOf gives the words on a drawn SVG.
func wordsOf(svg string) string {
	var words []string
	for _, found := range label.FindAllStringSubmatch(svg, -1) {
		words = append(words, html.UnescapeString(found[1]))
	}
	return strings.Join(words, " ")
}

// at follows a path into a JSON value and writes what it finds there.
func at(value any, path string) (string, error) {
	for part := range strings.SplitSeq(path, ".") {
		switch v := value.(type) {
		case map[string]any:
			inner, ok := v[part]
			if !ok {
				return "", fmt.Errorf("no %q among %q", part, slices.Sorted(maps.Keys(v)))
			}
			value = inner
		case []any:
			if part == "count" {
				value = len(v)
				continue
			}
			i, err := strconv.Atoi(part)
			if err != nil || i < 0 || i >= len(v) {
				return "", fmt.Errorf("no element %q of %d", part, len(v))
			}
			value = v[i]
		default:
			return "", fmt.Errorf("nothing below %v at %q", value, part)
		}
	}
	return fmt.Sprint(value), nil
}
