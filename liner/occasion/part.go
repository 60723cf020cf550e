package occasion

import (
	"strconv"
	"strings"

	"underflap/pattern/words"
)

// mostParts bounds the shares of one occasion.
const mostParts = 1000

// Part is a share of the sheets: Of shares in all, and the one with a number from 1.
// The zero Part is all of them.
type Part struct{ Number, Of int }

func (p Part) whole() bool { return p.Of <= 1 }

// ParsePart reads a share such as 1/2; nothing is all of them.
func ParsePart(field, word string) (Part, error) {
	if word == "" {
		return Part{}, nil
	}
	number, of, ok := strings.Cut(word, "/")
	n, errN := strconv.Atoi(strings.TrimSpace(number))
	m, errM := strconv.Atoi(strings.TrimSpace(of))
	if !ok || errN != nil || errM != nil || m < 1 || m > mostParts || n < 1 || n > m {
		return Part{}, &words.Refused{Field: field, Given: word, Accepts: "a share such as 1/2 and 2/2, of up to " + strconv.Itoa(mostParts)}
	}
	return Part{n, m}, nil
}
