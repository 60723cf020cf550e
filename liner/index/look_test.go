package index_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"underflap/liner/index"
	"underflap/pattern/draw/pdf"
)

func TestView(t *testing.T) {
	dir := os.Getenv("VIEW")
	if dir == "" {
		t.Skip()
	}
	twelve := append(append([]kind{}, shelf...), shelf[:5]...)
	long := made(t, "The thirty-seventh harvest supper of Tarn Lane Press and all of its neighbours, friends and their many children", "a4", shelf[:3], []int{40})
	long.Lines[0].Name = "Invitations for everybody who ever bought a card at the kitchen table, and then some"
	long.Lines[1].Name = "Einladungenfürsommerfesteundwinterfeierlichkeitenallerart"
	long.Lines[2].Name = "招待状 Приглашение ✉ Πρόσκληση"
	long.Lines[2].Letter = "AB"
	var hundred []kind
	for i := range 100 {
		hundred = append(hundred, shelf[i%len(shelf)])
	}
	folder := made(t, "Winter fair", "a4", shelf[:4], []int{5})
	for i := range folder.Sheets {
		folder.Sheets[i].File = "sheet-" + string(rune('a'+i)) + ".pdf"
		folder.Sheets[i].Last -= folder.Sheets[i].First - 1
		folder.Sheets[i].First = 1
	}
	for name, o := range map[string]index.Occasion{
		"one":   made(t, "Harvest supper", "a4", shelf[:1], []int{24}),
		"three": made(t, "Harvest supper", "a4", shelf[:3], []int{24, 5}), "letter": made(t, "Winter fair", "letter", shelf[3:6], []int{24, 9}),
		"twelve": made(t, "Winter fair", "a4", twelve, []int{3, 4, 20}), "a5": made(t, "Winter fair", "a5", shelf[:4], []int{9}), "a3": made(t, "Winter fair", "a3", twelve, []int{9}),
		"long": long, "mixed": mixed(t), "varied": varied(t), "hundred": made(t, "Winter fair", "a4", hundred, []int{3, 5}), "folder": folder,
		"small": made(t, "Winter fair", "100x148", shelf[:2], []int{24}),
	} {
		start := time.Now()
		pages, err := index.Draw(t.Context(), o)
		if err != nil {
			t.Fatal(name, err)
		}
		var file bytes.Buffer
		if err := pdf.Write(t.Context(), &file, pages, time.Time{}); err != nil {
			t.Fatal(err)
		}
		t.Log(name, len(pages), "pages", file.Len(), time.Since(start))
		if err := os.WriteFile(filepath.Join(dir, name+".pdf"), file.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
