package main

import (
	"bytes"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// ran is what go test -bench prints, with round numbers, so that every ratio is
// known beforehand. The format is Go's: https://go.dev/design/14313-benchmark-format
const ran = `goos: linux
goarch: amd64
pkg: underflap/liner/nest
cpu: one of ours
BenchmarkTwoC6OnA4-2   	       3	   2000000 ns/op
PASS
ok  	underflap/liner/nest	0.3s
pkg: underflap/liner/request
BenchmarkSheet/dots/pdf-2   	       3	  10000000 ns/op	 4096 B/op	      12 allocs/op
BenchmarkSheet/dots/png-2   	       3	  40000000 ns/op	 4096 B/op	      12 allocs/op
BenchmarkPreview-2         	       3	6000000000 ns/op	         40.00 most-ms	         0.2500 of-bare	         8.000 p50-ms	        20.00 p95-ms
BenchmarkRace/toss_of_5000_stars-2 	       3	         0 ns/op	        64.00 MiB	        80.00 MiB-1200	         0.5000 cpu-fastest	         2.000 s-ghostscript	         1.000 s-librsvg	         0.5000 s-mupdf	         0.1000 s-ours	         0.2000 x-fastest
PASS
pkg: underflap/liner/sheet
BenchmarkSolve/C6_pointed_on_A4-2 	       3	   3000000 ns/op
pkg: underflap/liner/geom
BenchmarkErodeTrace-2 	       3	    500000 ns/op	        11.00 x-100-points
pkg: underflap/liner/gang
BenchmarkShare/supper-2 	       3	  70000000 ns/op	        18.00 sheets	        24.00 sheets-of-each-line-alone
BenchmarkNew/small-2 	       3	   5000000 ns/op
BenchmarkNew/large-2 	       3	  50000000 ns/op
pkg: underflap/liner/occasion
BenchmarkOccasion   	       3	1000000000 ns/op	        10.00 pages/s	         0.05000 x-resumed
BenchmarkOccasion-2 	       3	 500000000 ns/op	        19.00 pages/s	         0.04000 x-resumed
BenchmarkOccasionMemory-2 	       1	         0 ns/op	        80.00 MiB-40	       100.00 MiB-400	        12.00 KiB/sheet
BenchmarkAlone-2 	       1	         0 ns/op	      1234 motifs
`

func TestEveryFigureIsInTheTableWithItsRatio(t *testing.T) {
	var out bytes.Buffer
	if err := run(strings.NewReader(ran), &out, io.Discard); err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{
		`TwoC6OnA4 +2 ms *$`,
		`Solve C6 pointed on A4 +3 ms +TwoC6OnA4 +2 ms +1\.50 +less`,
		`dots, pdf +10 ms *$`,
		`dots, png +40 ms +its PDF +10 ms +4\.00 +less`,
		`p50 +8 ms +without what is kept between answers +32 ms +0\.25 +less`,
		`p95 +20 ms +p50 +8 ms +2\.50 +less`,
		`toss of 5000 stars +100 ms +ghostscript +2 s +0\.05 +less`,
		`toss of 5000 stars +100 ms +mupdf +500 ms +0\.20 +less`,
		`toss of 5000 stars, processor time +0\.5 x +the most sparing +1 x +0\.50 +less`,
		`toss of 5000 stars, memory at 1200 DPI +80 MiB +at 600 DPI +64 MiB +1\.25 +less`,
		`ErodeTrace +11 x +100 points +1 x +11\.00 +less`,
		`Occasion, one core +10 /s *$`,
		`Occasion, 2 cores +19 /s +one core +10 /s +1\.90 +more`,
		`run again when all is there, 2 cores +0\.04 x +making it +1 x +0\.04 +less`,
		`greatest heap, 400 sheets +100 MiB +40 sheets +80 MiB +1\.25 +less`,
		`kept of every sheet more +12 KiB$`,
		`Share supper +70 ms$`,
		`Share supper +18 sheets +each line alone +24 sheets +0\.75 +less`,
		`Alone +1234 motifs$`,                             // whose time means nothing
		`New large +50 ms +New small +5 ms +10\.00 +less`, // named by no group
	} {
		if !regexp.MustCompile(`(?m)^ *` + line).MatchString(out.String()) {
			t.Errorf("no line %q in\n%s", line, &out)
		}
	}
}

// The header stands over its columns, under whatever heading.
func TestTheTableHasOneSetOfColumns(t *testing.T) {
	var out bytes.Buffer
	if err := run(strings.NewReader(ran), &out, io.Discard); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(out.String(), "\n")
	for _, column := range []struct{ header, below string }{{"THIS RUN", "2 ms"}, {"COMPARED WITH", "its PDF"}, {"THAT", "32 ms"}, {"RATIO", "0.25"}, {"GOOD IS", "less"}} {
		at := strings.Index(lines[0], column.header)
		if at < 0 || !slices.ContainsFunc(lines[1:], func(line string) bool {
			return len(line) > at && strings.HasPrefix(line[at:], column.below) && line[at-1] == ' '
		}) {
			t.Errorf("nothing begins with %s under %s in\n%s", column.below, column.header, &out)
		}
		for _, line := range lines {
			if strings.HasPrefix(line, "  ") && len(line) > at && line[at-1] != ' ' {
				t.Errorf("%q runs into the column %s", line, column.header)
			}
		}
	}
}

func TestNothingMeasuredAndFailuresAreErrors(t *testing.T) {
	for _, in := range []string{"", "PASS\n", ran + "--- FAIL: BenchmarkSheet\n", ran + "FAIL\tunderflap/liner\t0.1s\n"} {
		var out bytes.Buffer
		if err := run(strings.NewReader(in), &out, io.Discard); err == nil || out.Len() > 0 {
			t.Errorf("error %v, table of %d bytes, after %q", err, out.Len(), in[max(0, len(in)-30):])
		}
	}
}
