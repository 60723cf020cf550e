package main

import (
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/palettes"
	"underflap/pattern/words"
)

func newPalettes() *cobra.Command {
	var w request.Words
	var output, save string
	cmd := &cobra.Command{
		Use:   "palettes [name, file or wish]",
		Short: "List the palettes, or show, keep and exchange one",
		Long: `List the palettes: ours, then your own. With a name or a file show that one, and
which of its colours are hard to tell apart; -o writes it as a file. A wish
derives one: complement:, neighbours:, triad: or tints: with a colour, envelope:
with the colour of an envelope or its paper, such as kraft, or photo: with a file.
On a terminal that can, every colour is shown as it is.`,
		Example: `  underflap palettes
  underflap palettes hop-garden
  underflap palettes --inks "#b4472e, goldenrod" --ground cornsilk --save-palette hedge
  underflap palettes hedge -o hedge.gpl
  underflap palettes complement:#c0572f
  underflap palettes envelope:kraft --save-palette kraft-post
  underflap palettes photo:card.jpg -o card.toml`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fmt.Errorf("palettes takes one name and no word %q; a name of several words needs quotes", words.Shorten(args[1]))
			}
			return nil
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return offerPalettes(begun)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			w.Shelf = request.UsualShelf()
			if len(args) == 1 {
				if w.Palette = args[0]; strings.TrimSpace(w.Palette) == "" {
					return errors.New("palette: nothing given; leave it out for the list")
				}
			}
			return unflagged("palette", showPalettes(cmd, w, output, save))
		},
	}
	f, fields := cmd.Flags(), w.Fields()
	f.SortFlags = false
	ownColourFlags(f, fields)
	savePaletteFlag(f, &save)
	f.VarP(word{&output, "file"}, "output", "o", "file to write the palette to: .gpl, which drawing programs read, or .toml")
	inGroup(f, "output", request.PaperGroup)
	cmd.SetUsageFunc(groupedUsage)
	return cmd
}

// unflagged words a refusal of what was typed without a flag.
func unflagged(field string, err error) error {
	var refused *words.Refused
	if errors.As(err, &refused) && refused.Field == field {
		return errors.New(refused.Error())
	}
	return err
}

func showPalettes(cmd *cobra.Command, w request.Words, output, save string) error {
	if w.Palette+w.Inks+w.Ground == "" {
		for _, flag := range [][2]string{{"output", output}, {"save-palette", save}} {
			if flag[1] != "" {
				return &words.Refused{Field: flag[0], Given: flag[1], Why: "of all palettes none is named", Accepts: "with a name, as underflap palettes lists them, or --inks"}
			}
		}
		return listPalettes(cmd, w.Shelf)
	}
	if output != "" {
		if err := request.CheckPaletteOutput(output); err != nil {
			return err
		}
		if err := reads(output, []request.Input{{What: "palette", Path: w.Shelf.PaletteSource(w.Palette)}}); err != nil {
			return err
		}
	}
	p, remarks, err := request.ResolvePalette(cmd.Context(), w)
	if err != nil {
		return work(err)
	}
	if err := mayKeepPalette(w, save); err != nil {
		return err
	}
	if output != "" {
		if err := request.WritePalette(cmd.Context(), output, p); err != nil {
			return work(err)
		}
	}
	if err := keepPalette(cmd, w.Shelf, save, p); err != nil {
		return err
	}
	if output != "" {
		remark(cmd, remarks)
		return wrote(cmd, output, fmt.Sprintf("%s, a ground and %s", p.Name, inkCount(p)))
	}
	alike := p.Remarks() // stands in the table
	remark(cmd, slices.DeleteFunc(remarks, func(said string) bool { return slices.Contains(alike, said) }))
	return describePalette(cmd, p)
}

func inkCount(p palettes.Palette) string {
	if len(p.Inks) == 1 {
		return "1 ink"
	}
	return fmt.Sprintf("%d inks", len(p.Inks))
}

func listPalettes(cmd *cobra.Command, shelf request.Shelf) error {
	own, problems := shelf.Palettes()
	remark(cmd, request.PassedOver(problems))
	all := palettes.ByOccasion()
	for _, p := range own {
		if p.For == "" {
			p.For = "your own"
		}
		all = append(all, p.Palette)
	}
	err := colourTable(cmd, func(row func(...string)) {
		row("PALETTE", "FOR", "GROUND", "INKS", "ABOUT")
		for _, p := range all {
			var inks []string
			for _, c := range p.Inks {
				inks = append(inks, c.Hex())
			}
			row(p.Name, p.For, p.Ground.Hex(), strings.Join(inks, " "), strings.TrimSpace(p.About+mark(p)))
		}
	})
	if err == nil && len(own) > 0 {
		remark(cmd, []string{"your own palettes are kept in " + filepath.Join(shelf.Dir, request.PaletteFolder)})
	}
	return err
}

// mark says in a list to whom some colours look alike.
func mark(p palettes.Palette) string {
	if len(p.AlikeToAll()) > 0 {
		return " (some colours alike)"
	}
	var to []string
	for _, pair := range p.AlikeInSomeSight() {
		for _, s := range pair.To {
			if !slices.Contains(to, s.Plain) {
				to = append(to, s.Plain)
			}
		}
	}
	if to == nil {
		return ""
	}
	return " (indistinct to " + strings.Join(to, " and ") + " eyes)"
}

// describePalette prints one palette, a colour a line, and what tells its colours
// apart.
func describePalette(cmd *cobra.Command, p palettes.Palette) error {
	return colourTable(cmd, func(row func(...string)) {
		row("palette", p.Name)
		if p.For != "" {
			row("for", p.For)
		}
		if p.About != "" {
			row("about", p.About)
		}
		row("ground", p.Ground.Hex())
		for i, c := range p.Inks {
			row(fmt.Sprintf("ink %d", i+1), c.Hex(), apart(palettes.Difference(p.Ground, c))+" from the ground")
		}
		closest := func(s *palettes.Sight) string {
			pair := p.Closest(s)
			return fmt.Sprintf("%s and %s, %s apart", palettes.CalledInk(pair.First), palettes.CalledInk(pair.Second), apart(pair.Difference))
		}
		row("closest", closest(nil))
		for i, s := range palettes.Sights {
			row("  "+s.Plain, closest(&palettes.Sights[i]))
		}
		row("enough", fmt.Sprintf("%g from the ground, %g between inks, %g to red-, green- or blue-blind eyes; a difference of 1 is just seen (CIEDE2000)",
			palettes.LeastToGround, palettes.LeastAmongInks, palettes.LeastInSight))
		for _, pair := range p.Alike() {
			row("alike", p.Say(pair))
		}
	})
}

// apart is a difference for people, never rounded up: 4.97 is not enough where 5
// is, and must not look as if it were.
func apart(difference float64) string {
	return fmt.Sprintf("%.1f", math.Floor(10*difference+1e-9)/10)
}
