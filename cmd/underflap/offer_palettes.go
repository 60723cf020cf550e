package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/palettes"
	"underflap/palettes/derived"
)

// offerPalettes completes a palette's name, a file's, or a wish for a derived one.
func offerPalettes(begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	switch kind, rest, _ := strings.Cut(begun, ":"); {
	case derived.Wish(begun) && strings.EqualFold(kind, "photo"):
		return offerPictures(kind+":", rest)
	case derived.Wish(begun) && strings.EqualFold(kind, "envelope"):
		var papers []string
		for _, p := range derived.Papers() {
			papers = append(papers, kind+":"+p)
		}
		return papers, cobra.ShellCompDirectiveNoFileComp
	case derived.Wish(begun): // a colour, which nobody can guess
		return nil, cobra.ShellCompDirectiveNoFileComp
	case request.PaletteFile(begun) != "":
		return []string{"toml", "gpl"}, cobra.ShellCompDirectiveFilterFileExt
	}
	names := palettes.Names()
	own, _ := request.UsualShelf().Palettes()
	for _, p := range own {
		names = append(names, p.Name)
	}
	var kinds []string
	for _, kind := range derived.Kinds() {
		kinds = append(kinds, kind+":")
	}
	begins := func(s string) bool { return strings.HasPrefix(s, begun) }
	if slices.ContainsFunc(kinds, begins) && !slices.ContainsFunc(names, begins) {
		return kinds, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace // the colour follows at once
	}
	return append(names, kinds...), cobra.ShellCompDirectiveNoFileComp
}

// offerPictures completes the name of a picture after a prefix, where shells see
// no file's name.
func offerPictures(prefix, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	folder, name := filepath.Split(begun)
	entries, _ := os.ReadDir(filepath.Join(".", folder))
	if filepath.IsAbs(folder) {
		entries, _ = os.ReadDir(folder)
	}
	var offered []string
	more := cobra.ShellCompDirectiveNoFileComp
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), name) || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		switch ending := strings.ToLower(filepath.Ext(e.Name())); {
		case e.IsDir():
			offered = append(offered, prefix+folder+e.Name()+string(filepath.Separator))
			more |= cobra.ShellCompDirectiveNoSpace
		case slices.Contains([]string{".jpg", ".jpeg", ".png", ".webp", ".tif", ".tiff"}, ending):
			offered = append(offered, prefix+folder+e.Name())
		}
	}
	return offered, more
}
