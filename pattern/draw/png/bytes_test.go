package png

import (
	"bytes"
	"errors"
	"hash/adler32"
	"math/rand/v2"
	"runtime"
	"testing"

	"underflap/pattern/draw"
)

// The same page is the same bytes, however many share the work.
func TestSameBytesWhoeverDraws(t *testing.T) {
	for name, art := range map[string]func(*draw.Surface){"flat": clippedTwice, "true colour": pictured} {
		page := draw.NewPage(110, 90)
		page.Layer(draw.Artwork, art)
		var first []byte
		for _, procs := range []int{1, 2, 3, 8, 2} {
			before := runtime.GOMAXPROCS(procs)
			var file bytes.Buffer
			err := Write(t.Context(), &file, page, 600)
			runtime.GOMAXPROCS(before)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = file.Bytes()
			}
			if !bytes.Equal(first, file.Bytes()) {
				t.Errorf("%s: other bytes with %d at work", name, procs)
			}
		}
	}
}

// full takes so many bytes and no more.
type full struct{ room int }

var errFull = errors.New("full")

func (f *full) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errFull
	}
	return len(p), nil
}

// A full disk is reported wherever it comes, and nobody is left drawing.
func TestAWriterThatFailsEndsTheWork(t *testing.T) {
	page := draw.NewPage(110, 90)
	page.Layer(draw.Artwork, tossed)
	before := runtime.NumGoroutine()
	for _, room := range []int{0, 20, 500, 5000, 20000} {
		if err := Write(t.Context(), &full{room}, page, 600); !errors.Is(err, errFull) {
			t.Errorf("room for %d bytes: %v", room, err)
		}
	}
	if now := runtime.NumGoroutine(); now > before {
		t.Errorf("%d goroutines, before %d", now, before)
	}
}

// Referee: hash/adler32 over both pieces at once.
func TestSumsOfPiecesJoin(t *testing.T) {
	chance := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		piece := make([]byte, chance.IntN(200_000))
		for i := range piece {
			piece[i] = byte(chance.Uint32() | 0xe0)
		}
		at := chance.IntN(len(piece) + 1)
		got := joinSums(adler32.Checksum(piece[:at]), adler32.Checksum(piece[at:]), len(piece)-at)
		if want := adler32.Checksum(piece); got != want {
			t.Fatalf("%d and %d bytes: %08x, want %08x", at, len(piece)-at, got, want)
		}
	}
}
