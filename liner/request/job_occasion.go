package request

import (
	"fmt"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Occasion is a job file of several liners: words at its top hold for all of
// them, and each [[liner]] has words of its own.
type Occasion struct {
	Title   string
	Apart   bool // share = false: every liner keeps sheets of its own
	Several bool // it has [[liner]], or words that only an occasion has
	Lines   []OccasionLine
}

// OccasionLine is the liners of one kind.
type OccasionLine struct {
	Name  string
	Vary  bool // no two of them alike
	Apart bool // they share no sheet
	Job        // its words with those that hold for all, and where they stand

	at filed.Place
}

// Bounds of an occasion.
const (
	MostLines = 100
	mostName  = 40
	mostTitle = 80
)

// The words of an occasion that no single design has.
const (
	titleWord = "title"
	varyWord  = "vary"
	shareWord = "share"
	nameWord  = "name"
	apartWord = "apart"
)

// ParseOccasion reads a job file of any kind; that of one design is an occasion of
// one kind of liner. It refuses as ParseJob does. A liner's own words win over those
// at the top, by these rules:
//
//   - a liner that says which envelope it is for (envelope, card, pocket or
//     handmade) takes no word about an envelope from the top;
//   - one that names a pattern or a stamp takes neither these nor their settings
//     ([set], repeat, symmetry, stamp-colour, stamp-trace); without, its settings
//     are laid over those at the top one by one;
//   - one that names a palette takes no inks and no ground; a repeat of its own
//     replaces a symmetry, and a symmetry a repeat;
//   - a blank one takes nothing about a pattern.
func ParseOccasion(data []byte) (o Occasion, err error) {
	content, places, err := decodeJob(data)
	if err != nil {
		return o, err
	}
	top := tableOfWords{Job: Job{places: places}}
	entries, several := content[linersTable]
	delete(content, linersTable)
	if err := top.read(content, &o, nil); err != nil {
		return Occasion{}, err
	}
	o.Several = several || top.occasional
	tables := []map[string]any{{}}
	if several {
		if tables, err = top.tables(entries); err != nil {
			return Occasion{}, err
		}
	}
	names := map[string]bool{}
	for i, table := range tables {
		own := tableOfWords{Job: Job{places: placesOf(places, i)}}
		line := OccasionLine{Name: fmt.Sprintf("liner %d", i+1), Vary: top.vary, at: own.places[""]}
		if err := own.read(table, nil, &line); err != nil {
			return Occasion{}, err
		}
		key := strings.ToLower(line.Name)
		if names[key] {
			if own.said[nameWord] {
				line.at = own.place(nameWord)
			}
			return Occasion{}, line.Slip(fmt.Sprintf("name: %q is the name of another liner; accepted: a name of its own", line.Name))
		}
		names[key] = true
		line.Job = own.over(top)
		o.Lines = append(o.Lines, line)
	}
	return o, nil
}

// tableOfWords is one table of words on its way to a job.
type tableOfWords struct {
	Job
	said       map[string]bool // words that it has, also where they say nothing
	vary       bool
	occasional bool
}

// tables are the entries of [[liner]].
func (r *tableOfWords) tables(value any) ([]map[string]any, error) {
	list, ok := value.([]any)
	if one, single := value.(map[string]any); single { // TOML lets a single entry be [liner]
		list, ok = []any{one}, true
	}
	var tables []map[string]any
	for _, entry := range list {
		table, is := entry.(map[string]any)
		ok = ok && is
		tables = append(tables, table)
	}
	switch {
	case !ok || len(tables) == 0:
		return nil, r.slip(linersTable, linersTable+": another kind of value belongs here; accepted: tables such as [[liner]] with envelope = \"c6\"")
	case len(tables) > MostLines:
		return nil, &filed.Slip{Place: r.places.Of(linersTable, MostLines, ""), Why: fmt.Sprintf("%d liners; accepted: up to %d in one file", len(tables), MostLines)}
	}
	return tables, nil
}

// placesOf are the places of one liner's words under their own names.
func placesOf(all filed.Places, entry int) filed.Places {
	own := filed.Places{"": all.Of(linersTable, entry, "")}
	whole := fmt.Sprintf("%s.%d.", linersTable, entry)
	for key, at := range all {
		if name, mine := strings.CutPrefix(key, whole); mine {
			own[name] = at
		} else if name, mine := strings.CutPrefix(key, linersTable+"."); mine && entry == 0 && strings.Trim(firstPart(name), "0123456789") != "" {
			own[name] = at // of [liner]
		}
	}
	return own
}

func firstPart(name string) string {
	first, _, _ := strings.Cut(name, ".")
	return first
}

// read takes the words of a table: of the occasion's top, or of a liner.
func (r *tableOfWords) read(table map[string]any, top *Occasion, line *OccasionLine) (err error) {
	fields := map[string]Field{}
	for _, f := range r.Look.Fields() {
		fields[f.Name] = f
	}
	r.said = map[string]bool{}
	for name := range table { // of one written in a single line
		if _, there := r.places[name]; !there && line != nil && r.place(name) == (filed.Place{Line: 1, Column: 1}) {
			r.places[name] = r.places[""]
		}
	}
	for _, name := range r.inOrder("", table) {
		value := table[name]
		field, known := fields[name]
		r.said[name] = true
		switch {
		case top != nil && name == filesTable:
			err = r.readFiles(value)
		case top != nil && name == titleWord:
			top.Title, err = r.plain(name, value, mostTitle)
			r.occasional = true
		case top != nil && name == shareWord:
			var share bool
			share, err = r.mark(name, value)
			top.Apart, r.occasional = !share, true
		case name == varyWord:
			r.vary, err = r.mark(name, value)
			r.occasional = true
			if line != nil {
				line.Vary = r.vary
			}
		case line != nil && name == nameWord:
			line.Name, err = r.plain(name, value, mostName)
		case line != nil && name == apartWord:
			line.Apart, err = r.mark(name, value)
		case !known && line != nil:
			err = r.slip(name, fmt.Sprintf("unknown word %q; accepted in a [[%s]]: %s, %s, %s, the flags of underflap sheet without dashes, such as pattern, and [%s.%s]",
				words.Shorten(name), linersTable, nameWord, varyWord, apartWord, linersTable, settingsTable))
		case !known:
			err = r.slip(name, fmt.Sprintf("unknown word %q; accepted: the flags of underflap sheet and look, without dashes, such as pattern; %s, %s, %s, [[%s]], [%s] and [%s]",
				words.Shorten(name), titleWord, varyWord, shareWord, linersTable, settingsTable, filesTable))
		default:
			err = r.readField(field, value)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// plain reads a title or a name: a line of text.
func (r *tableOfWords) plain(name string, value any, most int) (string, error) {
	word, ok := typedAs(value)
	word = norm.NFC.String(strings.TrimSpace(word)) // an accent is part of its letter, however it was typed
	if !ok || word == "" || len([]rune(word)) > most || words.Printable(word) != word {
		why := ""
		if n := len([]rune(word)); ok && n > most {
			why = fmt.Sprintf(" %q has %d letters;", words.Shorten(word), n)
		}
		return "", r.slip(name, fmt.Sprintf("%s:%s accepted: a line of text in quotes, up to %d letters", name, why, most))
	}
	if name == nameWord && strings.Contains(word, ",") {
		return "", r.slip(name, fmt.Sprintf("name: %q; accepted: a name without commas", word))
	}
	return word, nil
}

func (r *tableOfWords) mark(name string, value any) (bool, error) {
	on, ok := value.(bool)
	if !ok {
		return false, r.slip(name, name+": another kind of value belongs here; accepted: true or false")
	}
	return on, nil
}

// dropped are the words at the top that a liner does not take.
func (r *tableOfWords) dropped() map[string]bool {
	gone := map[string]bool{}
	drop := func(fields []Field) {
		for _, f := range fields {
			gone[f.Name] = true
		}
	}
	says := func(names ...string) bool {
		return slices.ContainsFunc(names, func(name string) bool { return r.said[name] })
	}
	if says("envelope", "card", "pocket", "handmade") {
		drop(r.Look.envelopeFields())
	}
	for _, rule := range []struct{ said, gone []string }{
		{[]string{"pattern", "stamp"}, []string{"pattern", "stamp", "stamp-colour", "stamp-trace", settingsTable, "repeat", "symmetry"}},
		{[]string{"palette"}, []string{"palette", "inks", "ground"}},
		{[]string{"repeat", "symmetry"}, []string{"repeat", "symmetry"}},
		{[]string{"printer"}, []string{"correct-x", "correct-y"}},
	} {
		if says(rule.said...) {
			for _, name := range rule.gone {
				gone[name] = true
			}
		}
	}
	if r.Look.Blank {
		drop(r.Look.designFields())
		gone["bleed"] = true
	}
	return gone
}

// over is a liner's job: its own words over those at the top.
func (r *tableOfWords) over(top tableOfWords) Job {
	j := Job{Carried: top.Carried, places: filed.Places{}}
	gone := r.dropped()
	into, own, all := j.Look.Fields(), r.Look.Fields(), top.Look.Fields()
	for i, f := range into {
		from, at := all[i], top.places
		name := f.Name
		switch {
		case f.List != nil && !gone[name]:
			*f.List = laidOver(*own[i].List, *from.List)
			j.keepPlaces(name, top.places)
			j.keepPlaces(name, r.places)
			continue
		case r.said[name] || gone[name]:
			from, at = own[i], r.places
		}
		switch {
		case f.Mark != nil:
			*f.Mark = *from.Mark
		case f.List != nil:
			*f.List = *from.List
		default:
			*f.Text = *from.Text
		}
		j.keepPlaces(name, at)
	}
	return j
}

// keepPlaces takes over where a word stands, and what is in it.
func (j *Job) keepPlaces(name string, from filed.Places) {
	for key, at := range from {
		if key == name || strings.HasPrefix(key, name+".") {
			j.places[key] = at
		}
	}
}

// laidOver are settings with others under them, which give way by name.
func laidOver(own, under []string) []string {
	name := func(entry string) string {
		name, _, _ := strings.Cut(entry, "=")
		return strings.ToLower(strings.TrimSpace(name))
	}
	var list []string
	for _, entry := range under {
		if !slices.ContainsFunc(own, func(o string) bool { return name(o) == name(entry) }) {
			list = append(list, entry)
		}
	}
	return append(list, own...)
}

// Slip refuses a liner as a whole, at its place in the file.
func (l OccasionLine) Slip(why string) error {
	return &filed.Slip{Place: l.at, Why: words.Printable(why)}
}
