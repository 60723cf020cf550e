package main

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// bomb is a PNG whose header promises one picture and whose data, a few kilobytes,
// unpack to many megabytes of another.
func bomb(width, height uint32) []byte {
	b := []byte("\x89PNG\r\n\x1a\n")
	chunk := func(name string, data []byte) {
		b = binary.BigEndian.AppendUint32(b, uint32(len(data)))
		from := len(b)
		b = append(append(b, name...), data...)
		b = binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[from:]))
	}
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, width), height)
	chunk("IHDR", append(head, 8, 6, 0, 0, 0))
	var z bytes.Buffer
	w := zlib.NewWriter(&z)
	zeros := make([]byte, 1<<20)
	for range 64 {
		w.Write(zeros)
	}
	w.Close()
	chunk("IDAT", z.Bytes())
	chunk("IEND", nil)
	return b
}

// promiseTIFF is a TIFF that has nothing but a size and a strip that it lacks
// (TIFF 6.0, section 2).
func promiseTIFF(width, height uint32) []byte {
	b := []byte("II*\x00\x08\x00\x00\x00")
	entries := [][4]uint32{{256, 4, 1, width}, {257, 4, 1, height}, {258, 3, 1, 8}, {259, 3, 1, 1}, {262, 3, 1, 1}, {273, 4, 1, 200}, {277, 3, 1, 1}, {278, 4, 1, height}, {279, 4, 1, 1 << 30}}
	b = binary.LittleEndian.AppendUint16(b, uint16(len(entries)))
	for _, e := range entries {
		b = binary.LittleEndian.AppendUint16(b, uint16(e[0]))
		b = binary.LittleEndian.AppendUint16(b, uint16(e[1]))
		b = binary.LittleEndian.AppendUint32(b, e[2])
		b = binary.LittleEndian.AppendUint32(b, e[3])
	}
	return append(b, 0, 0, 0, 0)
}

// promiseWebP is a lossless WebP that has nothing but its header (WebP Lossless
// Bitstream, 3).
func promiseWebP(width, height uint32) []byte {
	bits := (width - 1) | (height-1)<<14
	b := append([]byte("RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f"), 0, 0, 0, 0)
	binary.LittleEndian.PutUint32(b[21:], bits)
	return append(b, make([]byte, 8)...)
}

// nastyFiles are files that somebody made to do harm, or a disc did.
func nastyFiles(t *testing.T) map[string][]byte {
	t.Helper()
	files := map[string][]byte{
		"huge.png": promisePNG(60000, 60000), "bomb.png": bomb(9, 9), "short.png": bomb(6000, 6000), "wide.png": promisePNG(2147483647, 1), "zero.png": promisePNG(0, 0),
		"huge.tiff": promiseTIFF(60000, 60000), "lacking.tiff": promiseTIFF(6000, 6000), "endless.tiff": promiseTIFF(4294967295, 4294967295),
		"huge.webp": promiseWebP(16384, 16384), "lacking.webp": promiseWebP(4000, 4000),
		"deep.svg": []byte(`<svg xmlns="http://www.w3.org/2000/svg">` + strings.Repeat("<g>", 100_000)),
		"many.svg": []byte(`<svg xmlns="http://www.w3.org/2000/svg"><defs><g id="a"><rect width="1" height="1"/></g>` + clones(20) + `</defs><use href="#a20"/></svg>`),
		"laughs.svg": []byte(`<!DOCTYPE svg [<!ENTITY a "` + strings.Repeat("<rect width='1' height='1'/>", 100) + `">]><svg xmlns="http://www.w3.org/2000/svg">` +
			strings.Repeat("&a;", 20_000) + `</svg>`),
		"long.svg":   append([]byte(`<svg xmlns="http://www.w3.org/2000/svg"><!--`), bytes.Repeat([]byte("x"), 17<<20)...),
		"dashed.svg": []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h1e5" stroke="black" stroke-width="1" stroke-dasharray="1e-6"/></svg>`),
		"nul.toml":   []byte("pattern = \"dots\x00\"\n"), "latin.toml": []byte("pattern = \"caf\xe9\"\n"), "deep.toml": []byte("a = " + strings.Repeat("[", 9_000)),
		"tables.toml": []byte(strings.Repeat("[a]\n", 9_000)), "dotted.toml": []byte(strings.Repeat("a.", 9_000) + "a = 1\n"), "inf.toml": []byte("side-gap = inf\n"),
		"nan.toml": []byte("side-gap = nan\n"), "big.toml": []byte("seed = 9223372036854775808\n"), "date.toml": []byte("pattern = 1979-05-27\n"), "utf16.toml": []byte("\xff\xfep\x00"),
		"count.toml": []byte("count = 1000000000\n"), "words.toml": []byte("envelope = \"" + strings.Repeat("long ", 2<<20) + "\"\n"),
		"nan.csv": []byte("0,NaN\n80,Inf\n160,1e308\n"), "nul.csv": []byte("0,0\n80,6\x000\n160,0\n"), "line.csv": bytes.Repeat([]byte("1"), 1<<20), "many.csv": bytes.Repeat([]byte("1,1\n"), 6000),
		"noise.csv": []byte("\xff\xfe\x00\x01\x02"), "down.csv": []byte("0,0\n80,60\n40,30\n"), "flat.csv": []byte("0,0\n80,0\n160,0\n"),
		"nul.gpl": []byte("GIMP Palette\n1 2 3\x00\n"), "big.gpl": []byte("GIMP Palette\n1 2 99999999999999999999\n"), "minus.gpl": []byte("GIMP Palette\n-1 2 3\n4 5 6\n"),
	}
	for name, kind := range map[string]string{"cut.jpg": "photo", "cut.tiff": "tiff", "cut.webp": "webp", "cut.png": "png", "cut.svg": "svg"} {
		data, err := artKinds[kind]()
		if err != nil {
			t.Fatal(err)
		}
		files[name] = data[:len(data)*2/3]
	}
	return files
}

// clones are groups that each hold the one before twice.
func clones(n int) string {
	var b strings.Builder
	for i := 1; i <= n; i++ {
		of := "a"
		if i > 1 {
			of = "a" + strconv.Itoa(i-1)
		}
		b.WriteString(`<g id="a` + strconv.Itoa(i) + `"><use href="#` + of + `"/><use href="#` + of + `"/></g>`)
	}
	return b.String()
}

// TestNastyRefused gives words and files that are made to do harm.
func TestNastyRefused(t *testing.T) {
	workbench(t)
	files := nastyFiles(t)
	dir := t.TempDir() // beside the workbench, which is looked at again and again
	at := func(name string) string { return filepath.Join(dir, name) }
	for name, data := range files {
		keepFile(t, at(name), data)
	}
	var all []refusal
	for name := range files {
		switch ending := name[strings.LastIndex(name, "."):]; ending {
		case ".toml":
			all = append(all, no(name, "run", at(name)), no("--pattern", "sheet", "--pattern", at(name)), no("--palette", "sheet", "--palette", at(name)))
		case ".csv":
			all = append(all, no("--profile", "sheet", "--pocket", "162x114", "--profile", at(name)), no("--profile", "fit", "--pocket", "162x114", "--profile", at(name)))
		case ".gpl":
			all = append(all, no("--palette", "sheet", "--palette", at(name)), no("palette", "palettes", at(name)))
		default:
			all = append(all, no("--stamp", "sheet", "--stamp", at(name)), no("--palette", "look", "--palette", "photo:"+at(name)), no("--stamp", "look", "--stamp", at(name), "--stamp-trace"))
		}
	}
	long := strings.Repeat("9", 100_000) // as long as Linux lets a single word be
	for _, flag := range []string{"--side-gap", "--pocket-depth", "--bleed", "--printer-margin", "--flap-depth", "--turn", "--scale", "--seed", "--count", "--per-sheet", "--ink-saver", "--correct-x"} {
		for _, word := range []string{long, "1e308", "-1e308", "\xff\xfe", "٣", "0x1p-1074", "1_0", "+", "--"} {
			all = append(all, no(flag, "sheet", flag+"="+word))
		}
	}
	for _, word := range []string{long, "\xff", "a\x1b[2Jb", "../../../../etc/passwd", "/dev/zero", "/dev/random", "/proc/self/mem", "CON", "%s%n", strings.Repeat("x", 100_000)} {
		all = append(all, no("--envelope", "sheet", "--envelope="+word), no("--pattern", "sheet", "--pattern="+word), no("--palette", "sheet", "--palette="+word),
			no("--paper", "sheet", "--paper="+word), no("--stamp", "sheet", "--stamp="+word), no("--profile", "sheet", "--pocket", "162x114", "--profile="+word), no("--set", "sheet", "--set="+word))
		if word != "../../../../etc/passwd" { // which is named by its end
			all = append(all, no("job file", "run", "--", word))
		}
	}
	all = append(all, no("--count", "sheet", "--count", "1000000000"), no("--pocket", "sheet", "--pocket", "1e308x1e308", "--flap-depth", "60"), no("--paper", "sheet", "--paper", "0.000001x0.000001"))
	for _, r := range all {
		name := strings.ReplaceAll(line(r.args), "/", "∕")
		t.Run(name[:min(len(name), 60)], func(t *testing.T) {
			if a := r.check(t); len(a.stderr) > 2000 {
				t.Errorf("%d letters on a line", len(a.stderr))
			}
		})
	}
}
