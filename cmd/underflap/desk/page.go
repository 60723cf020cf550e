package desk

import (
	"strings"

	"underflap/liner/request"
)

func choices(request.Shelf) (p struct{}, problems []string) { return p, nil }

func label(name string) string {
	name = strings.ReplaceAll(name, "-", " ")
	return strings.ToUpper(name[:1]) + name[1:]
}
