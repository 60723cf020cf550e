package svgpath

import (
	"fmt"
	"math"
	"strconv"
	"unicode/utf8"
)

// farthest bounds numbers and places: what lies farther out is no drawing.
const farthest = 1e6

// scanner reads the words of path data by SVG 1.1, 8.3.9, "The grammar for path
// data". Numbers may end in a point, which SVG 2 no longer writes but readers
// take.
type scanner struct {
	data string
	at   int
}

// fault is an Error at a byte of the data.
func (s *scanner) fault(at int, why string) *Error {
	return &Error{At: utf8.RuneCountInString(s.data[:at]) + 1, Why: why}
}

// found names what stands at the scanner's place.
func (s *scanner) found() string {
	if s.at >= len(s.data) {
		return "the end"
	}
	r, _ := utf8.DecodeRuneInString(s.data[s.at:])
	return strconv.QuoteRune(r)
}

func (s *scanner) peek() byte {
	if s.at < len(s.data) {
		return s.data[s.at]
	}
	return 0
}

func (s *scanner) space() {
	for s.at < len(s.data) {
		switch s.data[s.at] {
		case ' ', '\t', '\n', '\r', '\f':
			s.at++
		default:
			return
		}
	}
}

// comma skips blanks with one comma among them at most.
func (s *scanner) comma() (there bool) {
	s.space()
	if s.peek() == ',' {
		s.at++
		s.space()
		return true
	}
	return false
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// startsNumber tells whether a number may begin here.
func (s *scanner) startsNumber() bool {
	c := s.peek()
	return digit(c) || c == '+' || c == '-' || c == '.'
}

func (s *scanner) digits() (n int) {
	for digit(s.peek()) {
		s.at++
		n++
	}
	return n
}

// number reads the longest number that begins here: "0.6.5" is two, "1-2" too.
func (s *scanner) number() (float64, *Error) {
	begin := s.at
	if c := s.peek(); c == '+' || c == '-' {
		s.at++
	}
	n := s.digits()
	if s.peek() == '.' {
		s.at++
		n += s.digits()
	}
	if n == 0 {
		s.at = begin
		return 0, s.fault(begin, "a number belongs here, not "+s.found())
	}
	if c := s.peek(); c == 'e' || c == 'E' {
		mark := s.at
		s.at++
		if c := s.peek(); c == '+' || c == '-' {
			s.at++
		}
		if s.digits() == 0 {
			s.at = mark
		}
	}
	v, err := strconv.ParseFloat(s.data[begin:s.at], 64)
	if err != nil || math.Abs(v) > farthest {
		return 0, s.fault(begin, fmt.Sprintf("a number beyond %.0f", farthest))
	}
	return v, nil
}

// flag reads one digit, 0 or 1; the next word may follow at once.
func (s *scanner) flag() (float64, *Error) {
	c := s.peek()
	if c != '0' && c != '1' {
		return 0, s.fault(s.at, "a flag, 0 or 1, belongs here, not "+s.found())
	}
	s.at++
	return float64(c - '0'), nil
}
