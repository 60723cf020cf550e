package pdf

import (
	"context"
	"crypto/md5"
	"encoding/hex"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"
)

// markKey is the entry of a joined file's document information that tells what it
// was made of. Entries of one's own are allowed there (ISO 32000-1, 14.3.3).
const markKey = "UnderflapOf"

var (
	markPart = regexp.MustCompile(`/` + markKey + `\(([0-9a-f]+)\)`)
	lastPart = regexp.MustCompile(`trailer\n<</Size \d+ /Root \d+ 0 R /Info \d+ 0 R /ID \[<([0-9A-F]{32})><([0-9A-F]{32})>\]>>\nstartxref\n(\d+)\n%%EOF\n$`)
)

var errNotMarked = errors.New("not a file that was joined and marked")

// Marked gives the mark of a file that Join made, which must be as it was made to
// the last byte: what stands before its end is what its identifier is the digest of
// (ISO 32000-1, 14.4). When ctx ends it gives the context's error.
func Marked(ctx context.Context, file io.ReadSeeker) (mark string, err error) {
	size, err := file.Seek(0, io.SeekEnd)
	if err != nil {
		return "", err
	}
	const mostEnd, mostInfo = 512, 8192
	end, err := between(file, max(0, size-mostEnd), size)
	if err != nil {
		return "", err
	}
	last := lastPart.FindStringSubmatch(end)
	if last == nil || last[1] != last[2] {
		return "", errNotMarked
	}
	whole := size - int64(len(last[0]))
	table, err := strconv.ParseInt(last[3], 10, 64)
	if err != nil || table > whole {
		return "", errNotMarked
	}
	info, err := between(file, max(0, table-mostInfo), table) // the last object
	if err != nil {
		return "", err
	}
	found := markPart.FindStringSubmatch(info[strings.LastIndex(info, " 0 obj\n")+1:])
	if found == nil {
		return "", errNotMarked
	}
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return "", err
	}
	sum, buf := md5.New(), make([]byte, 1<<16)
	for left := whole; left > 0; {
		if err := ctx.Err(); err != nil {
			return "", err
		}
		n, err := file.Read(buf[:min(left, int64(len(buf)))])
		sum.Write(buf[:n])
		if left -= int64(n); err != nil && left > 0 {
			return "", err
		}
	}
	if !strings.EqualFold(hex.EncodeToString(sum.Sum(nil)), last[1]) {
		return "", errNotMarked
	}
	return found[1], nil
}

// between is what a file has from one offset to another.
func between(file io.ReadSeeker, from, to int64) (string, error) {
	if _, err := file.Seek(from, io.SeekStart); err != nil {
		return "", err
	}
	data := make([]byte, to-from)
	_, err := io.ReadFull(file, data)
	return string(data), err
}
