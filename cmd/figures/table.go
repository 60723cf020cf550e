package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"text/tabwriter"
)

// row is a line of the table. Its ratio is value over base, whatever they
// measure.
type row struct {
	what   string
	value  float64
	unit   string
	with   string // what it is compared with; nothing for the first of its kind
	base   float64
	better string // what makes the ratio good: "less" or "more"
}

// group is the rows under a heading.
type group struct {
	heading string
	rows    []row
}

// headings are the groups in order, and which families of benchmarks each has.
// A family that no group names comes last, under its own name.
var headings = []struct {
	heading  string
	families []string
	rows     func([]result) []row
}{
	{"Nesting: how long until two liners lie as deep as they can", []string{"TwoC6OnA4", "Solve"}, times},
	{"Sharing: which liners lie on one sheet together", []string{"Share", "Lay"}, each},
	{"A fit of every envelope, and room for rule and steps", []string{"FitWholeTable", "Mark"}, each},
	{"A sheet of two liners to a file, PNG at 600 DPI", []string{"Sheet"}, formats},
	{"Previews on the page, envelope and sheet", []string{"Preview"}, previews},
	{"Against other programs: the same page to PNG at 600 DPI, quickest of the rounds", []string{"Race"}, race},
	{"Pages of an occasion on one core and on two", []string{"Occasion"}, pages},
	{"Memory for one PDF of an occasion, whose sheets all differ", []string{"OccasionMemory"}, heaps},
	{"Parts of the work", []string{"ErodeTrace", "Places"}, each},
}

// table sets results under their headings.
func table(all []result) []group {
	var out []group
	left := slices.Clone(all)
	take := func(families []string) (taken []result) {
		left = slices.DeleteFunc(left, func(r result) bool {
			if !slices.Contains(families, r.family()) {
				return false
			}
			taken = append(taken, r)
			return true
		})
		return taken
	}
	for _, h := range headings {
		if taken := take(h.families); len(taken) > 0 {
			out = append(out, group{h.heading, h.rows(taken)})
		}
	}
	for len(left) > 0 {
		family := left[0].family()
		out = append(out, group{family, each(take([]string{family}))})
	}
	return out
}

// label names a result under a heading.
func (r result) label() string { return strings.TrimSpace(r.family() + " " + r.part()) }

// times compares each time with the first.
func times(all []result) (rows []row) {
	for i, r := range all {
		one := row{what: r.label(), value: r.values[seconds], unit: "s", better: "less"}
		if i > 0 {
			one.with, one.base = all[0].label(), all[0].values[seconds]
		}
		rows = append(rows, one)
	}
	return rows
}

// each compares a time with the first of its own family, and shows whatever else
// a benchmark measures.
func each(all []result) (rows []row) {
	first := map[string]result{}
	for _, r := range all {
		one := row{what: r.label(), value: r.values[seconds], unit: "s", better: "less"}
		if base, ok := first[r.family()]; ok {
			one.with, one.base = base.label(), base.values[seconds]
		} else {
			first[r.family()] = r
		}
		if one.value > 0 { // else the benchmark says that its time means nothing
			rows = append(rows, one)
		}
		rows = append(rows, r.own(r.label())...)
	}
	return rows
}

// own is what a benchmark measures by itself, by its units: "x-THAT" is a ratio to
// THAT, "UNIT-of-THAT" is what UNIT is compared with.
func (r result) own(what string) (rows []row) {
	for _, unit := range slices.Sorted(maps.Keys(r.values)) {
		if unit == seconds || unit == "B/op" || unit == "allocs/op" || strings.Contains(unit, "-of-") {
			continue
		}
		if than, ok := strings.CutPrefix(unit, "x-"); ok {
			rows = append(rows, row{what: what, value: r.values[unit], unit: "x", with: words(than), base: 1, better: "less"})
			continue
		}
		one := row{what: what, value: r.values[unit], unit: unit, better: "less"}
		for other, base := range r.values {
			if than, ok := strings.CutPrefix(other, unit+"-of-"); ok {
				one.with, one.base = words(than), base
			}
		}
		rows = append(rows, one)
	}
	return rows
}

// words are what a unit says, in which no blank can stand.
func words(unit string) string { return strings.ReplaceAll(unit, "-", " ") }

// formats compares the outputs of each design with its PDF.
func formats(all []result) (rows []row) {
	for _, r := range all {
		design, format, _ := strings.Cut(r.part(), ", ")
		one := row{what: r.part(), value: r.values[seconds], unit: "s", better: "less"}
		for _, other := range all {
			if d, f, _ := strings.Cut(other.part(), ", "); d == design && f == "pdf" && format != "pdf" {
				one.with, one.base = "its PDF", other.values[seconds]
			}
		}
		rows = append(rows, one)
	}
	return rows
}

// previews are the median, what one in twenty exceeds, and the share of the time
// without a memory.
func previews(all []result) (rows []row) {
	for _, r := range all {
		p50 := r.values["p50-ms"] / 1000
		rows = append(rows,
			row{what: "p50", value: p50, unit: "s", with: "without what is kept between answers", base: p50 / r.values["of-bare"], better: "less"},
			row{what: "p95", value: r.values["p95-ms"] / 1000, unit: "s", with: "p50", base: p50, better: "less"},
			row{what: "the slowest", value: r.values["most-ms"] / 1000, unit: "s", with: "p50", base: p50, better: "less"})
	}
	return rows
}

// race compares us with each of the others, and our memory at two densities.
func race(all []result) (rows []row) {
	for _, r := range all {
		us := r.values["s-ours"]
		for _, unit := range slices.Sorted(maps.Keys(r.values)) {
			if other, ok := strings.CutPrefix(unit, "s-"); ok && other != "ours" {
				rows = append(rows, row{what: r.part(), value: us, unit: "s", with: other, base: r.values[unit], better: "less"})
			}
		}
		rows = append(rows,
			row{what: r.part() + ", processor time", value: r.values["cpu-fastest"], unit: "x", with: "the most sparing", base: 1, better: "less"},
			row{what: r.part() + ", memory at 1200 DPI", value: r.values["MiB-1200"], unit: "MiB", with: "at 600 DPI", base: r.values["MiB"], better: "less"})
	}
	return rows
}

// pages compares pages per second with the first of the same benchmark, of the
// fewest cores. A benchmark that reports pages in no unit has its time turned
// over.
func pages(all []result) (rows []row) {
	slices.SortStableFunc(all, func(a, b result) int { return cmp.Compare(a.cores, b.cores) })
	rate := func(r result) float64 {
		for _, unit := range slices.Sorted(maps.Keys(r.values)) {
			if strings.HasPrefix(unit, "pages/s") {
				return r.values[unit]
			}
		}
		return 1 / r.values[seconds]
	}
	cores := func(n int) string {
		if n == 1 {
			return "one core"
		}
		return fmt.Sprintf("%d cores", n)
	}
	for _, r := range all {
		one := row{what: r.label() + ", " + cores(r.cores), value: rate(r), unit: "/s", better: "more"}
		for _, other := range all {
			if other.name == r.name && other.cores < r.cores {
				one.with, one.base = cores(other.cores), rate(other)
				break
			}
		}
		rows = append(rows, one)
		if again, ok := r.values["x-resumed"]; ok {
			rows = append(rows, row{what: "run again when all is there, " + cores(r.cores), value: again, unit: "x", with: "making it", base: 1, better: "less"})
		}
	}
	return rows
}

// heaps compares the memory of many sheets with that of few.
func heaps(all []result) (rows []row) {
	for _, r := range all {
		rows = append(rows,
			row{what: "greatest heap, 400 sheets", value: r.values["MiB-400"], unit: "MiB", with: "40 sheets", base: r.values["MiB-40"], better: "less"},
			row{what: "kept of every sheet more", value: r.values["KiB/sheet"], unit: "KiB"})
	}
	return rows
}

// write sets the table for a terminal, all of it in the same columns.
func write(out io.Writer, groups []group) error {
	var b bytes.Buffer
	w := tabwriter.NewWriter(&b, 0, 8, 2, ' ', 0)
	fmt.Fprintln(w, "WHAT\tTHIS RUN\tCOMPARED WITH\tTHAT\tRATIO\tGOOD IS")
	over := map[int]string{} // headings by the line that follows; among the columns they would part them
	line := 1
	for _, g := range groups {
		over[line] = "\n" + g.heading + "\n"
		for _, r := range g.rows {
			with := "\t\t\t"
			if r.with != "" {
				with = fmt.Sprintf("%s\t%s\t%.2f\t%s", r.with, amount(r.base, r.unit), r.value/r.base, r.better)
			}
			fmt.Fprintf(w, "  %s\t%s\t%s\n", r.what, amount(r.value, r.unit), with)
			line++
		}
	}
	if err := w.Flush(); err != nil {
		return err
	}
	line = 0
	for text := range strings.Lines(b.String()) {
		if _, err := io.WriteString(out, over[line]+strings.TrimRight(text, " \n")+"\n"); err != nil {
			return err
		}
		line++
	}
	return nil
}

// amount is a value of three digits or more, with its unit; time has one that suits.
func amount(v float64, unit string) string {
	if unit == "s" {
		for _, step := range []struct {
			unit string
			size float64
		}{{"s", 1}, {"ms", 1e-3}, {"µs", 1e-6}, {"ns", 1e-9}} {
			if v >= step.size {
				return fmt.Sprintf("%.3g %s", v/step.size, step.unit)
			}
		}
	}
	if v >= 1000 {
		return fmt.Sprintf("%.0f %s", v, unit)
	}
	return fmt.Sprintf("%.3g %s", v, unit)
}
