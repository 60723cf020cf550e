package referee

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// GEOS lets geosop answer something about many polygons taken as one, given by
// their rings, and each of as many other geometries: an answer for each of these.
// All are well-known text (OGC 06-103r4).
func GEOS(t testing.TB, op string, rings, each []string) []string {
	t.Helper()
	dir := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	a := file("a.wkt", "MULTIPOLYGON("+strings.Join(rings, ",")+")\n")
	b := file("b.wkt", strings.Join(each, "\n")+"\n")
	answers := strings.Fields(string(Run(t, "geosop", "-a", a, "-b", b, "-f", "txt", "-p", "9", op)))
	if len(answers) != len(each) {
		t.Fatalf("geosop %s gave %d answers about %d geometries", op, len(answers), len(each))
	}
	return answers
}
