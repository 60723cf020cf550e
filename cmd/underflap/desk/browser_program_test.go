package desk_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
)

// TestMain takes away what the stories built.
func TestMain(m *testing.M) {
	status := m.Run()
	os.RemoveAll(programs)
	os.Exit(status)
}

// programs is the folder of the command, "" while it is not built.
var programs string

// program is the folder of the command itself, built once.
var program = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "underflap-program")
	if err != nil {
		return "", err
	}
	programs = dir
	out, err := exec.Command("go", "build", "-o", dir, "underflap/cmd/underflap").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return dir, nil
})

// runs runs a command line of underflap as a shell takes it, in a folder of its
// own that holds files, and gives what it writes to a file.
func (b *tab) runs(line, output string, files map[string][]byte) []byte {
	b.Helper()
	bin, err := program()
	if err != nil {
		b.Fatal(err)
	}
	dir := b.TempDir()
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			b.Fatal(err)
		}
	}
	cmd := exec.Command("sh", "-c", line+" -o "+output)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "XDG_CONFIG_HOME="+b.shelf, "HOME="+b.shelf, "PATH="+bin+":"+os.Getenv("PATH"))
	if out, err := cmd.CombinedOutput(); err != nil {
		b.Fatalf("%s: %v: %s", line, err, out)
	}
	data, err := os.ReadFile(filepath.Join(dir, output))
	if err != nil {
		b.Fatal(err)
	}
	return data
}
