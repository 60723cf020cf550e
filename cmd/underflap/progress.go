package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// How often work that takes long says how far it has come.
const (
	quickWork  = time.Second            // says nothing
	betweenBar = 100 * time.Millisecond // two looks of a bar
	betweenSay = 3 * time.Second        // two lines, where there is no bar
)

// clock is the time, and a call after some of it, which stop calls off.
type clock interface {
	now() time.Time
	after(d time.Duration, call func()) (stop func() bool)
}

type wallClock struct{}

func (wallClock) now() time.Time { return time.Now() }
func (wallClock) after(d time.Duration, call func()) func() bool {
	return time.AfterFunc(d, call).Stop
}

// meter shows how far work has come: a bar on a terminal, plain lines elsewhere.
// Whoever else writes to the same terminal does so through around, so that no line
// begins behind a bar.
type meter struct {
	to    io.Writer
	barOf func(what string, total int) *progressbar.ProgressBar // nil: plain lines
	clock clock

	mu          sync.Mutex
	what        string
	done, total int
	begun, told time.Time
	said        int // steps that the last line told of
	bar         *progressbar.ProgressBar
	stop        func() bool
	work        int // counts works, so that a late call knows its own is over
}

// newMeter shows work on to, which has a bar where it is a terminal that moves its
// cursor and nobody asked for plain text; see ansi.Said for the variables.
func newMeter(to io.Writer, env func(string) string) *meter {
	m := &meter{to: to, clock: wallClock{}}
	file, ok := to.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) || env("NO_COLOR") != "" || strings.EqualFold(env("TERM"), "dumb") {
		return m
	}
	m.barOf = func(what string, total int) *progressbar.ProgressBar {
		columns, _, err := term.GetSize(int(file.Fd()))
		if err != nil {
			return nil
		}
		return barIn(file, columns, what, total)
	}
	return m
}

const (
	leastBar, mostBar = 10, 40 // columns of the bar itself
)

// barIn is a bar on a terminal so many columns wide, or none where it would not go
// into one line.
func barIn(to io.Writer, columns int, what string, total int) *progressbar.ProgressBar {
	lead := "underflap: " + what
	beside := len(lead) + len(" 100% [] ") + len(fmt.Sprintf("(%d/%d)", total, total)) + 2
	wide := min(columns-beside, mostBar)
	if wide < leastBar {
		return nil
	}
	return progressbar.NewOptions(total, progressbar.OptionSetWriter(to), progressbar.OptionSetDescription(lead), progressbar.OptionSetWidth(wide),
		progressbar.OptionShowCount(), progressbar.OptionSetPredictTime(false), progressbar.OptionSetElapsedTime(false), progressbar.OptionUseANSICodes(true),
		progressbar.OptionSetTheme(progressbar.Theme{Saucer: "=", SaucerHead: ">", SaucerPadding: " ", BarStart: "[", BarEnd: "]"}))
}

// Begin waits whether the work is quick.
func (m *meter) Begin(what string, total int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.what, m.done, m.total, m.said = what, 0, total, -1
	m.begun, m.told = m.clock.now(), time.Time{}
	m.work++
	work := m.work
	m.stop = m.clock.after(quickWork, func() { // the first step may take long
		m.mu.Lock()
		defer m.mu.Unlock()
		if m.work == work && m.total > 0 {
			m.show()
		}
	})
}

// Done shows how many steps are done, now and then.
func (m *meter) Done(done int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.done = done; done < m.total && m.clock.now().Sub(m.begun) >= quickWork {
		m.show()
	}
}

// show shows it, unless it has only just been shown.
func (m *meter) show() {
	now, between := m.clock.now(), betweenSay
	if m.barOf != nil && m.told.IsZero() {
		m.bar = m.barOf(m.what, m.total)
	}
	if m.bar != nil {
		between = betweenBar
	}
	if m.said == m.done || !m.told.IsZero() && now.Sub(m.told) < between {
		return
	}
	m.told, m.said = now, m.done
	if m.bar != nil {
		_ = m.bar.Set(m.done) // a terminal that is gone shows nothing
		return
	}
	fmt.Fprintf(m.to, "underflap: %s %d of %d\n", m.what, m.done+1, m.total) // the one that is being made
}

// End takes the bar away.
func (m *meter) End() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.stop()
	m.hide()
	m.bar, m.total = nil, 0
}

func (m *meter) hide() {
	if m.bar != nil && !m.told.IsZero() {
		_ = m.bar.Clear()
	}
}

// around is w with the bar out of the way of what is written to it.
func (m *meter) around(w io.Writer) io.Writer { return besideBar{m, w} }

type besideBar struct {
	*meter
	w io.Writer
}

func (b besideBar) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.hide()
	n, err := b.w.Write(p)
	if b.bar != nil && !b.told.IsZero() {
		_ = b.bar.Set(b.done)
	}
	return n, err
}
