package main

import (
	"net"
	"strconv"
	"testing"
)

// TestDesksRefused opens the page at ports that are none, or taken.
func TestDesksRefused(t *testing.T) {
	var all []refusal
	for _, w := range []string{" ", "x", "-1", "65536", "80.5", "8o40", "0x50", "1e3", "99999999999999999999", "80\n90", ":8040", "localhost:8040"} {
		all = append(all, no("--port", "desk", "--no-open", "--port", w))
	}
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	all = append(all, no("--port", "desk", "--no-open", "--port", strconv.Itoa(l.Addr().(*net.TCPAddr).Port)))
	checkAccepted(t, all)
	for _, r := range []refusal{no("desk", "desk", "supper"), no("--pattern", "desk", "--pattern", "dots"), no("--port", "desk", "--port"), no("--no-open", "desk", "--no-open=maybe")} {
		t.Run(line(r.args), func(t *testing.T) { workbench(t); r.check(t) })
	}
}
