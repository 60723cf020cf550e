package main

import (
	"bytes"
	"context"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/schollz/progressbar/v3"

	"underflap/pattern/draw/progress"
)

// handClock stands still until it is moved.
type handClock struct {
	at    time.Time
	calls []due
}

type due struct {
	at   time.Time
	call func()
}

func (c *handClock) now() time.Time { return c.at }

func (c *handClock) after(d time.Duration, call func()) func() bool {
	c.calls = append(c.calls, due{c.at.Add(d), call})
	return func() bool { return false } // too late, as it may be
}

// move lets time pass, and calls what is due.
func (c *handClock) move(d time.Duration) {
	c.at = c.at.Add(d)
	var later []due
	for _, one := range c.calls {
		if one.at.After(c.at) {
			later = append(later, one)
		} else {
			one.call()
		}
	}
	c.calls = later
}

// watched is a meter with a clock in the test's hand, and what it has written.
func watched(columns int) (context.Context, *meter, *handClock, *bytes.Buffer) {
	var out bytes.Buffer
	hand := &handClock{at: time.Unix(0, 0)}
	m := &meter{to: &out, clock: hand}
	if columns > 0 {
		m.barOf = func(what string, total int) *progressbar.ProgressBar { return barIn(&out, columns, what, total) }
	}
	return progress.With(context.Background(), m), m, hand, &out
}

func TestProgressInLines(t *testing.T) {
	ctx, _, hand, out := watched(0)
	quick := progress.Begin(ctx, "page", 2)
	hand.move(900 * time.Millisecond)
	quick.Done(2)
	hand.move(time.Minute) // the call that was due is too late
	if out.Len() > 0 {
		t.Errorf("quick work says %q", out)
	}
	w := progress.Begin(ctx, "sheet", 40)
	for range 40 {
		hand.move(500 * time.Millisecond)
		w.Done(1)
	}
	hand.move(time.Minute)
	// at one second, then every three: two sheets a second
	if want := "underflap: sheet 2 of 40\nunderflap: sheet 9 of 40\nunderflap: sheet 15 of 40\nunderflap: sheet 21 of 40\nunderflap: sheet 27 of 40\nunderflap: sheet 33 of 40\nunderflap: sheet 39 of 40\n"; out.String() != want {
		t.Errorf("said %q, want %q", out, want)
	}
	out.Reset()
	slow := progress.Begin(ctx, "sheet", 3)
	hand.move(2 * time.Second) // the first takes long
	slow.End()                 // and fails
	slow.Done(1)
	if want := "underflap: sheet 1 of 3\n"; out.String() != want {
		t.Errorf("slow work said %q, want %q", out, want)
	}
}

// screen is what a terminal of one line shows after it was written to, and how long
// its longest line was. It knows the two things that bars do: return, and erase.
func screen(written string) (now []string, longest int) {
	for _, l := range strings.Split(written, "\n") {
		var shown []rune
		at := 0
		l = strings.ReplaceAll(l, "\x1b[2K", "\x00")
		l = strings.ReplaceAll(l, "\x1b[0K", "\x01")
		for _, r := range l {
			switch r {
			case '\r':
				at = 0
			case 0:
				shown = nil
			case 1:
				shown = shown[:min(at, len(shown))]
			default:
				for len(shown) <= at {
					shown = append(shown, ' ')
				}
				shown[at] = r
				at++
			}
			longest = max(longest, len(shown))
		}
		now = append(now, strings.TrimRight(string(shown), " "))
	}
	return now, longest
}

func TestProgressBar(t *testing.T) {
	for _, columns := range []int{48, 60, 80, 200} {
		ctx, m, hand, out := watched(columns)
		w := progress.Begin(ctx, "sheet", 1000)
		hand.move(time.Second)
		if now, _ := screen(out.String()); !strings.HasPrefix(now[0], "underflap: sheet   0% [") {
			t.Errorf("%d columns: after a second the screen shows %q", columns, now)
		}
		for range 500 {
			hand.move(10 * time.Millisecond)
			w.Done(1)
		}
		now, longest := screen(out.String())
		if bar := regexp.MustCompile(`^underflap: sheet  50% \[=+> +\] \(500/1000\)$`); !bar.MatchString(now[0]) {
			t.Errorf("%d columns: half-way the screen shows %q", columns, now)
		}
		if longest > columns-1 {
			t.Errorf("%d columns: a line of %d", columns, longest)
		}
		if n := strings.Count(out.String(), "(") - 1; n > 51 {
			t.Errorf("%d columns: drawn %d times in five seconds", columns, n)
		}
		// a line that somebody writes stands alone, and the bar under it
		fmt.Fprintln(m.around(out), "underflap: saved hedge")
		if now, _ = screen(out.String()); len(now) != 2 || now[0] != "underflap: saved hedge" || !strings.HasSuffix(now[1], "(500/1000)") {
			t.Errorf("%d columns: after a line the screen shows %q", columns, now)
		}
		w.End()
		if now, _ = screen(out.String()); len(now) != 2 || now[1] != "" {
			t.Errorf("%d columns: at the end the screen shows %q", columns, now)
		}
		before := out.Len()
		hand.move(time.Minute)
		fmt.Fprint(m.around(out), "x")
		if out.Len() != before+1 {
			t.Errorf("%d columns: the bar comes back: %q", columns, out.String()[before:])
		}
	}
}

// TestNarrowTerminal has no room for a bar, and gets lines.
func TestNarrowTerminal(t *testing.T) {
	ctx, _, hand, out := watched(30)
	w := progress.Begin(ctx, "sheet", 40)
	hand.move(time.Second)
	w.Done(39)
	w.End()
	if want := "underflap: sheet 1 of 40\n"; out.String() != want {
		t.Errorf("said %q, want %q", out, want)
	}
}
