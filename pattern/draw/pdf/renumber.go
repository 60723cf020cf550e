package pdf

import (
	"bytes"
	"regexp"
	"slices"
	"strconv"
)

var (
	referencePart = regexp.MustCompile(`\b(\d+) 0 R\b`)
	numberPart    = regexp.MustCompile(`^\s*\d+ 0 obj`)
)

// renumbered gives the objects new numbers in the order in which they are
// reached from the trailer: the library numbers pictures of one width in the
// order of a hash map. What is not reached keeps its place behind them. Data of
// streams is left as it is.
func renumbered(objects []object, trailer []byte) ([]object, []byte) {
	at := map[int]int{} // of an object, by its old number
	for i, o := range objects {
		at[o.number] = i
	}
	fresh := map[int]int{}
	var order []int
	meet := func(dictionary []byte) {
		for _, m := range referencePart.FindAllSubmatch(dictionary, -1) {
			n, _ := strconv.Atoi(string(m[1]))
			if _, known := at[n]; known && fresh[n] == 0 {
				order = append(order, n)
				fresh[n] = len(order)
			}
		}
	}
	meet(trailer)
	for i := 0; i < len(order); i++ {
		dictionary, _ := parted(objects[at[order[i]]].body)
		meet(dictionary)
	}
	for _, o := range objects {
		if fresh[o.number] == 0 {
			order = append(order, o.number)
			fresh[o.number] = len(order)
		}
	}
	renamed := func(dictionary []byte) []byte {
		return referencePart.ReplaceAllFunc(dictionary, func(ref []byte) []byte {
			n, _ := strconv.Atoi(string(ref[:bytes.IndexByte(ref, ' ')]))
			if fresh[n] == 0 {
				return ref
			}
			return []byte(strconv.Itoa(fresh[n]) + " 0 R")
		})
	}
	out := make([]object, len(objects))
	for i, o := range objects {
		dictionary, data := parted(o.body)
		dictionary = numberPart.ReplaceAll(renamed(dictionary), []byte(strconv.Itoa(fresh[o.number])+" 0 obj"))
		out[i] = object{number: fresh[o.number], start: o.start, body: slices.Concat(dictionary, data)}
	}
	slices.SortFunc(out, func(a, b object) int { return a.number - b.number })
	return out, renamed(trailer)
}

// parted is an object's dictionary, and its stream where it has one.
func parted(body []byte) (dictionary, data []byte) {
	if i := bytes.Index(body, []byte("stream")); i >= 0 {
		return body[:i], body[i:]
	}
	return body, nil
}
