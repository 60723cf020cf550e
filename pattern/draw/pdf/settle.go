package pdf

import (
	"bytes"
	"cmp"
	"crypto/md5"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"time"
)

var (
	startPart    = regexp.MustCompile(`startxref\s+(\d+)`)
	tablePart    = regexp.MustCompile(`^xref\s+0 (\d+)\s+`)
	rootPart     = regexp.MustCompile(`/Root (\d+ 0 R)`)
	infoPart     = regexp.MustCompile(`/Info ((\d+) 0 R)`)
	datePart     = regexp.MustCompile(`/(CreationDate|ModDate) ?\(D:[^)]*\)`)
	producerPart = regexp.MustCompile(`/Producer ?\([^)]*\)`)
)

// header begins a file; its bytes past 127 say that data follow.
const header = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"

const producer = "underflap"

// date is a time as document information writes it (ISO 32000-1, 7.9.4).
func date(made time.Time) string { return "D:" + made.UTC().Format("20060102150405Z") }

var errNotSettled = errors.New("the file just written cannot be read back")

// object is one indirect object as the library wrote it.
type object struct {
	number int
	start  int
	body   []byte // from its number to its end
}

// settle makes a file depend on its pages alone. The library writes objects in
// the order of a hash map and puts the clock into dates and identifier; here
// they are laid down by number, with the dates asked for or none, and an
// identifier made from the content (ISO 32000-1, 7.5 and 14.4).
func settle(file []byte, made time.Time) ([]byte, error) {
	objects, trailer, err := objectsOf(file)
	if err != nil {
		return nil, err
	}
	objects, trailer = renumbered(objects, trailer)
	root, info := rootPart.FindSubmatch(trailer), infoPart.FindSubmatch(trailer)
	if root == nil || info == nil {
		return nil, errNotSettled
	}
	infoNumber, _ := strconv.Atoi(string(info[2]))

	out := bytes.NewBufferString(header)
	offsets := map[int]int{}
	for _, o := range objects {
		if o.number == infoNumber {
			o.body = settleInfo(o.body, made)
		}
		offsets[o.number] = out.Len()
		out.Write(bytes.TrimSpace(o.body))
		out.WriteString("\n")
	}
	id := md5.Sum(out.Bytes())
	table := out.Len()
	size := objects[len(objects)-1].number + 1
	fmt.Fprintf(out, "xref\n0 %d\n0000000000 65535 f \n", size)
	for n := 1; n < size; n++ {
		if at, ok := offsets[n]; ok {
			fmt.Fprintf(out, "%010d 00000 n \n", at)
		} else {
			out.WriteString("0000000000 00001 f \n")
		}
	}
	fmt.Fprintf(out, "trailer\n<</Size %d /Root %s /Info %s /ID [<%X><%X>]>>\nstartxref\n%d\n%%%%EOF\n", size, root[1], info[1], id, id, table)
	return out.Bytes(), nil
}

// objectsOf parts a file by its cross-reference table: the objects by number,
// and what follows the table.
func objectsOf(file []byte) (objects []object, trailer []byte, err error) {
	start := startPart.FindSubmatch(file[max(0, len(file)-100):])
	if start == nil {
		return nil, nil, errNotSettled
	}
	at, _ := strconv.Atoi(string(start[1]))
	if at > len(file) {
		return nil, nil, errNotSettled
	}
	head := tablePart.FindSubmatch(file[at:])
	if head == nil {
		return nil, nil, errNotSettled
	}
	count, _ := strconv.Atoi(string(head[1]))
	const entry = 20
	rows := file[at+len(head[0]):]
	if len(rows) < count*entry {
		return nil, nil, errNotSettled
	}
	for n := range count {
		row := rows[n*entry : (n+1)*entry]
		if row[17] == 'n' {
			offset, err := strconv.Atoi(string(row[:10]))
			if err != nil || offset >= at {
				return nil, nil, errNotSettled
			}
			objects = append(objects, object{number: n, start: offset})
		}
	}
	if len(objects) == 0 {
		return nil, nil, errNotSettled
	}
	slices.SortFunc(objects, func(a, b object) int { return cmp.Compare(a.start, b.start) })
	for i := range objects {
		end := at
		if i+1 < len(objects) {
			end = objects[i+1].start
		}
		objects[i].body = file[objects[i].start:end]
	}
	slices.SortFunc(objects, func(a, b object) int { return cmp.Compare(a.number, b.number) })
	return objects, rows[count*entry:], nil
}

// settleInfo puts our own name and the asked-for time, or none, into the
// document information dictionary.
func settleInfo(body []byte, made time.Time) []byte {
	body = producerPart.ReplaceAll(body, []byte("/Producer("+producer+")"))
	entry := ""
	if !made.IsZero() {
		entry = "/$1(" + date(made) + ")"
	}
	return datePart.ReplaceAll(body, []byte(entry))
}
