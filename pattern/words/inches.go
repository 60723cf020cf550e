package words

import (
	"fmt"
	"math"
)

// Inches writes millimetres as a person reads them off an inch rule: to the
// nearest 1/16 in, in lowest terms, "3 1/8 in".
func Inches(mm float64) string { return inches(mm) + " in" }

// InchSize writes a size in inches to the nearest 1/16, width first.
func InchSize(width, height float64) string { return inches(width) + " × " + Inches(height) }

func inches(mm float64) string {
	n := int(math.Round(math.Abs(mm) / MillimetresPerInch * 16))
	whole, over, under := n/16, n%16, 16
	for over > 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	sign := ""
	if mm < 0 && n > 0 {
		sign = "-"
	}
	switch {
	case over == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, over, under)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, over, under)
}
