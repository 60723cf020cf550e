package liner

import (
	"slices"
	"strings"
)

// SameName tells whether a person may mean by one name the other: case, blanks,
// dots and dashes do not matter, and "#10" is "No. 10".
func SameName(a, b string) bool { return plainName(a) == plainName(b) }

func named(given string, names []string) bool {
	return slices.ContainsFunc(names, func(name string) bool { return SameName(given, name) })
}

var plainer = strings.NewReplacer(" ", "", ".", "", "-", "", "#", "no")

// mostName is more letters than any name has: what is longer need not be looked at.
const mostName = 200

func plainName(s string) string {
	if len(s) > mostName {
		return s
	}
	return plainer.Replace(strings.ToLower(strings.TrimSpace(s)))
}
