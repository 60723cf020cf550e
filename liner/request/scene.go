package request

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"underflap/liner/scene"
	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Look is what a person wants to see, as typed. An empty word takes its default.
type Look struct {
	Words
	View           string // one or more of open, half, closed, front; default open
	EnvelopeColour string // default that of a palette for an envelope, else a warm white
	Table          string // colour; default a warm grey
	ShowCard       string // its colour; default no card
	Palettes       string // to compare: names, or all
	Patterns       string // to compare: names, or all
}

// Seen is a picture, and what a person should know of it.
type Seen struct {
	scene.Placed
	Found   Found
	Scene   scene.Scene
	Says    string // what it shows
	Remarks []string
}

// See settles what to look at and draws it. When ctx ends it stops and gives the
// context's error.
func See(ctx context.Context, l Look) (Seen, error) {
	views, err := resolveViews(l)
	if err != nil {
		return Seen{}, err
	}
	cells, together, remarks, err := resolveCells(ctx, l)
	if err != nil {
		return Seen{}, err
	}
	seen := Seen{Remarks: remarks}
	seen.Found, seen.Scene, err = resolveScene(ctx, l, views)
	if err != nil {
		return Seen{}, err
	}
	if len(cells) > 1 && len(views) > 1 {
		return Seen{}, typed{"view", l.View}.refused("many designs are compared in one view", "one of "+strings.Join(ViewNames, ", "))
	}
	for _, cell := range cells {
		one := seen.Scene
		one.Design = cell.Design
		if err := one.Check(); err != nil {
			return Seen{}, err
		}
	}
	seen.Scene.Design = cells[0].Design
	state := map[scene.View]string{scene.Open: "open", scene.Half: "half open", scene.Closed: "closed", scene.Front: "from the front"}
	var states []string
	for _, v := range views {
		states = append(states, state[v])
	}
	if l.Palettes+l.Patterns != "" {
		if seen.Placed, err = seen.Scene.Grid(ctx, cells, views[0], together); err != nil {
			return Seen{}, err
		}
		seen.Title += l.pressed()
		count := fmt.Sprintf("%d designs to compare", len(cells))
		if len(cells) == 1 {
			count = "1 design"
		}
		seen.Says = fmt.Sprintf("%s, %s %s", count, seen.Found.Short, states[0])
	} else {
		if seen.Placed, err = seen.Scene.Picture(ctx, views); err != nil {
			return Seen{}, err
		}
		seen.Title += l.pressed()
		seen.Says = fmt.Sprintf("%s, %s", seen.Title, strings.Join(states, ", "))
	}
	seen.About = seen.about(l.EnvelopeColour, cells, states)
	return seen, nil
}

// about says what is to be seen, for those who cannot see it.
func (s Seen) about(colour string, cells []scene.Cell, states []string) string {
	name := s.Found.Short + " envelope"
	switch colour = strings.ToLower(strings.TrimSpace(colour)); {
	case colour != "" && !strings.HasPrefix(colour, "#"):
		name = colour + " " + name
	case s.Scene.Envelope == scene.UsualEnvelope:
		name = "warm white " + name
	default:
		name += " of colour " + s.Scene.Envelope.Hex()
	}
	article := "A"
	if strings.ContainsRune("AEIOaeio8", rune(name[0])) { // an A7, an ivory one, an 8 by 8 one
		article = "An"
	}
	say := fmt.Sprintf("%s %s on a table, %s, from above", article, name, strings.Join(states, ", "))
	if s.Scene.Card != nil {
		say += ", with a card in its pocket"
	}
	if len(cells) == 1 {
		return fmt.Sprintf("%s, lined with %s in %s.", say, s.Scene.Design.Name, strings.ReplaceAll(s.Scene.Design.Colours.Name, "-", " "))
	}
	var names []string
	for _, c := range cells {
		names = append(names, c.Name)
	}
	return say + ", lined in turn with " + strings.Join(names, "; ") + "."
}

// wide is about the width of a picture in pixels when no density is asked for.
const wide = 1600

// UsualDPI is the density at which the picture is about 1600 pixels wide.
func (s Seen) UsualDPI() string {
	return fmt.Sprint(max(72, min(1200, math.Round(wide*words.MillimetresPerInch/s.Width))))
}

// Pages is the picture as an output takes it.
func (s Seen) Pages() []*draw.Page { return []*draw.Page{s.Page} }

// ViewNames lists the ways to look at an envelope.
var ViewNames = func() (names []string) {
	for _, v := range scene.Views {
		names = append(names, string(v))
	}
	return names
}()

// resolveViews reads one view or several with commas between.
func resolveViews(l Look) ([]scene.View, error) {
	var views []scene.View
	for _, word := range strings.Split(or(l.View, string(scene.Open)), ",") {
		name, err := words.Choose("view", strings.TrimSpace(word), ViewNames)
		if err != nil {
			return nil, &words.Refused{Field: "view", Given: l.View, Accepts: strings.Join(ViewNames, ", ") + ", or up to four of them with commas between"}
		}
		views = append(views, scene.View(name))
	}
	if len(views) > len(scene.Views) {
		return nil, &words.Refused{Field: "view", Given: l.View, Accepts: "up to four views"}
	}
	return views, nil
}

// resolveScene settles everything but the design.
func resolveScene(ctx context.Context, l Look, views []scene.View) (Found, scene.Scene, error) {
	found, sc, err := cutAs(ctx, l.Words)
	if err != nil {
		return found, sc, err
	}
	if found.Blank != nil {
		sc.Panels = found.Blank.Folded()
	}
	sc.Envelope, sc.Table = scene.UsualEnvelope, scene.UsualTable
	if c, ok := derived.Envelope(l.Palette); ok {
		sc.Envelope = c
	}
	if sc.Paper, err = l.paperColour(); err != nil {
		return found, sc, err
	}
	if l.EnvelopeColour != "" {
		if sc.Envelope, err = derived.PaperColour("envelope-colour", l.EnvelopeColour); err != nil {
			return found, sc, err
		}
	}
	if l.Table != "" {
		if sc.Table, err = palettes.Colour("table", l.Table); err != nil {
			return found, sc, err
		}
	}
	if l.ShowCard == "" {
		return found, sc, nil
	}
	if !slices.Contains(views, scene.Open) && !slices.Contains(views, scene.Half) {
		return found, sc, typed{"show-card", l.ShowCard}.refused("a closed envelope hides the card", "with --view open or half")
	}
	card := scene.Card{}
	if card.Colour, err = derived.PaperColour("show-card", l.ShowCard); err != nil {
		return found, sc, err
	}
	card.Width, card.Height = scene.CardFor(found.Width, found.Height)
	if c := found.Card; c != nil {
		card.Width, card.Height = max(c.Width, c.Height), min(c.Width, c.Height)
		if found.Width < found.Height {
			card.Width, card.Height = card.Height, card.Width
		}
	}
	sc.Card = &card
	return found, sc, nil
}

// cutAs is the liner as a sheet with the same words cuts it. Where no paper is
// named and none of the usual one is large enough, it is as deep as wanted.
func cutAs(ctx context.Context, w Words) (Found, scene.Scene, error) {
	r, err := ResolveFit(ctx, w)
	if err != nil {
		return r.Found, scene.Scene{}, err
	}
	sc := scene.Scene{Shadows: w.Memory.shadowsKept(), Liner: r.Task.Liner, Depth: r.Task.Liner.WantedPocketDepth()}
	plan, err := w.Memory.arrange(ctx, r.Task)
	switch {
	case err == nil:
		sc.Depth = plan.Depth
	case ctx.Err() != nil:
		return r.Found, sc, ctx.Err()
	case w.Paper != "" || w.PrinterMargin != "" || w.PerSheet != "" || w.Layout != "":
		return r.Found, sc, err
	default: // one may still want to see it
		why := err.Error()
		var refused *words.Refused
		if errors.As(err, &refused) && refused.Why != "" {
			why = refused.Why
		}
		r.Found.Remarks = append(slices.Clip(r.Found.Remarks), "drawn for larger paper: "+why)
	}
	return r.Found, sc, nil
}

// resolveCells settles the designs to show: one, or those to compare. Where both
// patterns and palettes are compared, a pattern's own should stay together.
func resolveCells(ctx context.Context, l Look) (cells []scene.Cell, together int, remarks []string, err error) {
	if l.Palettes != "" && l.Palette != "" {
		return nil, 0, nil, typed{"palette", l.Palette}.refused("several are compared", "either --palette or --palettes")
	}
	if l.Patterns != "" && l.Pattern != "" {
		return nil, 0, nil, typed{"pattern", l.Pattern}.refused("several are compared", "either --pattern or --patterns")
	}
	if l.Patterns != "" && l.Stamp != "" {
		return nil, 0, nil, typed{"stamp", l.Stamp}.refused("several patterns are compared", "without --patterns")
	}
	names, passedOver := paletteNames(l.Words)
	inPalettes, err := listed("palettes", l.Palettes, l.Palette, names)
	if err != nil {
		return nil, 0, nil, err
	}
	if isAll(l.Palettes) {
		remarks = append(remarks, passedOver...)
	}
	names, passedOver = comparable(l.Words)
	patterns, err := listed("patterns", l.Patterns, l.Pattern, names)
	if err != nil {
		return nil, 0, nil, err
	}
	if isAll(l.Patterns) {
		remarks = append(remarks, passedOver...)
	}
	if n := len(inPalettes) * len(patterns); n > scene.MostCells {
		m := typed{"palettes", l.Palettes}
		if l.Palettes == "" || len(patterns) > len(inPalettes) && l.Patterns != "" {
			m = typed{"patterns", l.Patterns}
		}
		return nil, 0, nil, m.refused(fmt.Sprintf("%d designs in one picture", n), fmt.Sprintf("up to %d", scene.MostCells))
	}
	tones := make([]palettes.Palette, len(inPalettes)) // a photo is read once, and so is art
	times := map[string]int{}
	say := func(lines []string, of int) {
		for _, line := range lines {
			times[line] += of
			if all := len(patterns) * len(inPalettes); times[line] >= all && times[line] < all+of { // said of every design
				remarks = append(remarks, line)
			}
		}
	}
	for i, c := range inPalettes {
		w := l.Words
		w.Palette = c
		var said []string
		if tones[i], said, err = ResolvePalette(ctx, w); err != nil {
			return nil, 0, nil, inList(err, l)
		}
		say(said, len(patterns))
	}
	on, err := resolvePress(l.Words)
	if err != nil {
		return nil, 0, nil, err
	}
	for _, p := range patterns {
		w := l.Words
		w.Pattern = p
		bare, said, err := resolveMotif(ctx, w)
		if err != nil {
			return nil, 0, nil, inList(err, l)
		}
		say(said, len(inPalettes))
		for _, palette := range tones {
			d := bare
			d.Colours = palette.Colours
			d, said := on.print(ctx, d)
			say(said, 1)
			d = on.shown(ctx, d)
			cells = append(cells, scene.Cell{Name: cellName(l, d, len(patterns), len(inPalettes)), Design: d})
		}
	}
	if len(patterns) > 1 && len(inPalettes) > 1 && len(inPalettes) <= 10 {
		together = len(inPalettes)
	}
	return cells, together, remarks, ctx.Err()
}

// cellName is what stands under a design: what tells it from the others.
func cellName(l Look, d pattern.Design, patterns, palettes int) string {
	switch {
	case patterns > 1 && palettes > 1:
		return d.Name + ", " + spoken(d.Colours.Name)
	case l.Palettes != "":
		return spoken(d.Colours.Name)
	}
	return d.Name
}

// everything is the word for all there are.
const everything = "all"

// isAll tells whether a list is all there are.
func isAll(list string) bool { return strings.EqualFold(strings.TrimSpace(list), everything) }

// listed parts names with commas between; "all" is all there are, and without
// a list there is the one word, which may be empty.
func listed(field, list, one string, all []string) ([]string, error) {
	if list == "" {
		return []string{one}, nil
	}
	if isAll(list) {
		return all, nil
	}
	var names []string
	for _, name := range strings.Split(list, ",") {
		if name = strings.TrimSpace(name); name == "" {
			return nil, &words.Refused{Field: field, Given: list, Why: "a name is missing beside a comma", Accepts: "names with commas between, or all"}
		}
		names = append(names, name)
	}
	return names, nil
}

// comparable are the patterns that need no art, the person's own last, with a
// remark on each that is passed over.
func comparable(w Words) (names, remarks []string) {
	for _, name := range pattern.Names() {
		if name != pattern.Stamps {
			names = append(names, name)
		}
	}
	own, problems := w.Shelf.Patterns()
	for _, p := range own {
		names = append(names, p.Name)
	}
	return names, PassedOver(problems)
}

// paletteNames are the project's, by occasion, and then the person's own, with a
// remark on each that is passed over.
func paletteNames(w Words) (names, remarks []string) {
	all, remarks := w.Shelf.allPalettes()
	for _, p := range all {
		names = append(names, p.Name)
	}
	return names, remarks
}

// inList puts the blame on the list that a wrong name came from.
func inList(err error, l Look) error {
	refused, ok := err.(*words.Refused)
	if !ok {
		return err
	}
	if refused.Field == "palette" && l.Palettes != "" || refused.Field == "pattern" && l.Patterns != "" {
		r := *refused
		r.Field += "s"
		r.Accepts = strings.ReplaceAll(r.Accepts, "--palette", "--palettes")
		return &r
	}
	return err
}
