package desk

import (
	"slices"
	"strings"

	"underflap/liner"
	"underflap/liner/handmade"
	"underflap/liner/request"
	"underflap/liner/scene"
	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern"
	"underflap/pattern/words"
)

// Page is all that the page offers to choose from. It is made from the tables of
// sizes, cards, papers, patterns and palettes, and from the fields of a request,
// so that what is added there appears here by itself.
type Page struct {
	Saved    []Size // the person's own envelopes
	Usual    []Size // those a home card maker is likeliest to hold
	Families []Family
	Flaps    []Choice
	Cards    []Size
	Papers   []Size

	Constructions []Choice
	Schemes       []Choice // ways to derive a palette from one colour
	EnvelopePaper []Choice

	Occasions []Occasion
	Patterns  []Pattern

	// controls of the fields that the page has no place of its own for
	EnvelopeMore, FoldMore, PatternMore, ColoursMore, PictureMore, PaperMore []Control

	DefaultEnvelope, DefaultPattern, DefaultPalette, DefaultPaper string
	UsualEnvelope, UsualTable                                     string // colours
	MostInks                                                      []int  // places for inks of one's own, from 1
}

// Size is an envelope, a card or a paper, with its size in both units.
type Size struct {
	Value, Label  string
	MM, In        string // "162 × 114 mm", "6 3/8 × 4 1/2 in"
	Drawing       Drawing
	Flat          bool // a card of one leaf
	Chosen        bool // unless another is chosen
	Width, Height float64
}

// Family is envelopes that are at home in one place.
type Family struct {
	Name  string
	Sizes []Size
}

// Choice is a word and what stands for it on the page.
type Choice struct {
	Value, Label, About string
	Hex                 string // a colour
	Drawing             Drawing
}

// Occasion is palettes for one occasion.
type Occasion struct {
	Name     string
	Palettes []Slip
}

// Slip is a palette as a slip of paper: its ground, and its inks as spots on it.
type Slip struct {
	Value, Label, About, Ground string
	Spots                       []Spot
	Inks                        string // with commas between
}

// Spot is an ink on a slip of 120 by 64.
type Spot struct {
	X, R float64
	Hex  string
}

// Pattern is a family of patterns and what can be set on it.
type Pattern struct {
	Value, Label, About string
	Art                 bool // needs a picture of the person's own
	First, More         []Setting
}

// usualOf says how many of a family's envelopes are shown as pictures. The size
// table has the likeliest first.
var usualOf = []struct {
	family string
	first  int
}{{"ISO", 5}, {"US announcement", 3}, {"Squares", 1}, {"North America", 1}}

// choices gathers what the page offers; the shelf's own things come along.
// Problems are what of the shelf had to be passed over, a line each.
func choices(shelf request.Shelf) (p Page, problems []string) {
	p = Page{DefaultEnvelope: request.DefaultEnvelope, DefaultPattern: pattern.Default, DefaultPalette: palettes.Default, DefaultPaper: request.DefaultPaper,
		UsualEnvelope: scene.UsualEnvelope.Hex(), UsualTable: scene.UsualTable.Hex()}
	for i := range 6 {
		p.MostInks = append(p.MostInks, i+1)
	}
	problems = p.addSizes(shelf)
	for _, s := range liner.Shapes {
		p.Flaps = append(p.Flaps, Choice{Value: string(s), Label: label(string(s)), About: s.About(), Drawing: flapDrawing(s)})
	}
	for _, c := range liner.Cards() {
		name := c.Trade[0]
		p.Cards = append(p.Cards, sized(words.AsTyped(name), name, max(c.Width, c.Height), min(c.Width, c.Height)))
		p.Cards[len(p.Cards)-1].Flat = c.Flat
	}
	for _, paper := range liner.Papers() {
		p.Papers = append(p.Papers, sized(words.AsTyped(paper.Short), paper.Short, paper.Width, paper.Height))
	}
	for _, name := range handmade.Names() {
		p.Constructions = append(p.Constructions, Choice{Value: name, Label: label(name)})
	}
	for _, kind := range derived.Kinds() {
		word := kind + ":#c0572f"
		if _, paper := derived.Envelope(word); paper || derived.Photo(word) != "" {
			continue // which have places of their own
		}
		p.Schemes = append(p.Schemes, Choice{Value: kind, Label: label(kind), About: mixes[kind]})
	}
	for _, name := range derived.Papers() {
		c, err := derived.PaperColour("envelope-colour", name)
		if err != nil {
			panic(err) // a paper of the list
		}
		p.EnvelopePaper = append(p.EnvelopePaper, Choice{Value: name, Label: label(name), Hex: c.Hex()})
	}
	problems = append(problems, p.addColours(shelf)...)
	problems = append(problems, p.addPatterns(shelf)...)
	p.addMore(shelf)
	return p, problems
}

func (p *Page) addSizes(shelf request.Shelf) []string {
	entries, problems := shelf.Entries()
	usual := map[string]int{}
	for _, u := range usualOf {
		usual[u.family] = u.first
	}
	shown := map[string][]Size{}
	for _, e := range entries {
		s := sized(words.AsTyped(e.Trade[0]), e.Trade[0], e.Width, e.Height)
		s.Drawing, s.Chosen = sizeDrawing(e.Width, e.Height), liner.SameName(e.Trade[0], p.DefaultEnvelope)
		if e.Family == request.SavedFamily {
			s.Value = e.Trade[0]
			p.Saved = append(p.Saved, s)
			continue
		}
		if len(shown[e.Family]) < usual[e.Family] {
			shown[e.Family] = append(shown[e.Family], s)
		}
		if n := len(p.Families); n == 0 || p.Families[n-1].Name != e.Family {
			p.Families = append(p.Families, Family{Name: e.Family})
		}
		f := &p.Families[len(p.Families)-1]
		f.Sizes = append(f.Sizes, s)
	}
	for _, u := range usualOf {
		p.Usual = append(p.Usual, shown[u.family]...)
	}
	return request.PassedOver(problems)
}

func (p *Page) addColours(shelf request.Shelf) []string {
	own, problems := shelf.Palettes()
	var all []Occasion
	add := func(occasion string, c palettes.Palette) {
		i := slices.IndexFunc(all, func(o Occasion) bool { return o.Name == occasion })
		if i < 0 {
			i, all = len(all), append(all, Occasion{Name: occasion})
		}
		all[i].Palettes = append(all[i].Palettes, slip(c))
	}
	for _, c := range own {
		add("Your own", c.Palette)
	}
	for _, c := range palettes.ByOccasion() {
		add(label(c.For), c)
	}
	p.Occasions = all
	return request.PassedOver(problems)
}

func slip(c palettes.Palette) Slip {
	s := Slip{Value: c.Name, Label: label(c.Name), About: c.About, Ground: c.Ground.Hex()}
	const width, between = 120.0, 3.0
	n := float64(len(c.Inks))
	r := min(13, (width-16-between*(n-1))/n/2)
	var inks []string
	for i, ink := range c.Inks {
		s.Spots = append(s.Spots, Spot{X: width/2 + (float64(i)-(n-1)/2)*(2*r+between), R: r, Hex: ink.Hex()})
		inks = append(inks, ink.Hex())
	}
	s.Inks = strings.Join(inks, ",")
	return s
}

func (p *Page) addPatterns(shelf request.Shelf) []string {
	own, problems := shelf.Patterns()
	var all []pattern.Info
	for _, o := range own {
		all = append(all, o.Info())
	}
	for _, info := range append(all, pattern.Describe()...) {
		one := Pattern{Value: info.Name, Label: label(info.Name), About: plain(info.About), Art: info.Name == pattern.Stamps}
		one.First, one.More = settings(info)
		if one.Art { // beside the others it is the one of one's own
			one.Label, one.About = "Your own stamp", "your own stamp, drawing or photo"
			p.Patterns = slices.Insert(p.Patterns, 0, one)
			continue
		}
		p.Patterns = append(p.Patterns, one)
	}
	return request.PassedOver(problems)
}

func sized(value, name string, width, height float64) Size {
	return Size{Value: value, Label: name, MM: words.MMSize(width, height), In: words.InchSize(width, height), Width: width, Height: height}
}

// label is a name as it stands on the page: "side-gap" is "Side gap".
func label(name string) string {
	if name == "" {
		return ""
	}
	return capital(strings.ReplaceAll(name, "-", " "))
}
