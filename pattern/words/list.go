package words

import "strings"

// List joins words as one says them: "a", "a and b", "a, b and c". Of none it is
// nothing.
func List(all []string) string {
	last := len(all) - 1
	if last < 1 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:last], ", ") + " and " + all[last]
}
