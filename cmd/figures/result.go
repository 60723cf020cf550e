package main

import (
	"strconv"
	"strings"

	"golang.org/x/perf/benchfmt"
)

// result is one line of a benchmark: its name and what was measured, by unit as
// the benchmark reports it; times in seconds.
type result struct {
	name   string // without Benchmark and cores: Sheet/dots/pdf
	cores  int
	values map[string]float64
}

// seconds is the unit of the time an operation takes.
const seconds = "sec/op"

func resultOf(r *benchfmt.Result) result {
	name, cores := r.Name.Full(), 1
	if at := strings.LastIndexByte(string(name), '-'); at > 0 {
		if n, err := strconv.Atoi(string(name[at+1:])); err == nil {
			name, cores = name[:at], n
		}
	}
	out := result{name: strings.ReplaceAll(string(name), "_", " "), cores: cores, values: map[string]float64{}}
	for _, v := range r.Values {
		if v.OrigUnit != "" && v.Unit != seconds { // the reader scales what it knows to base units
			out.values[v.OrigUnit] = v.OrigValue
			continue
		}
		out.values[v.Unit] = v.Value
	}
	return out
}

// family is the benchmark's name without its parts: Sheet of Sheet/dots/pdf.
func (r result) family() string {
	family, _, _ := strings.Cut(r.name, "/")
	return family
}

// part is what follows the family's name, in words.
func (r result) part() string {
	_, part, _ := strings.Cut(r.name, "/")
	return strings.ReplaceAll(part, "/", ", ")
}
