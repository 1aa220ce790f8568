package table

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strconv"

	"golang.org/x/text/language"
)

var (
	//go:embed page.css
	pageCSS string
	//go:embed page.html.tmpl
	pageTemplate string

	pages = template.Must(template.New("").Parse(pageTemplate))
)

// HTMLOptions say how a page is written.
type HTMLOptions struct {
	Language language.Tag // of the numbers; the zero value writes 1,234.5
	// MaxRows is how many rows of a table are shown before a note says how many
	// more there are; zero means 200. Totals are always shown.
	MaxRows int
	// Beside, where it is set, is asked for each table that is cut, in order, and
	// names the file that holds all of it.
	Beside func(d Doc, t Table) string
}

// WriteHTML writes the report as a page that needs nothing else: no script, no
// picture and no address from outside. It suits light and dark screens, and
// paper of any size.
func WriteHTML(w io.Writer, d Doc, o HTMLOptions) error {
	if err := d.Check(); err != nil {
		return err
	}
	if o.MaxRows == 0 {
		o.MaxRows = 200
	}
	b := pageBuilder{numerals: newNumerals(o.Language), maxRows: o.MaxRows, beside: o.Beside, named: map[string]int{}}
	view := b.section(d, 1)
	view.Style = template.CSS(coloursCSS + plotCSS + pageCSS)
	return pages.ExecuteTemplate(w, "page", view)
}

// A pageBuilder turns a report into what the templates show.
type pageBuilder struct {
	numerals
	maxRows         int
	beside          func(Doc, Table) string
	named           map[string]int // how many tables have a name so far
	sections, plots int            // made so far, for their ids
}

type (
	sectionView struct {
		ID, Title             string
		Heading               template.HTML
		Style                 template.CSS
		Lead, Cautions, Notes []string
		Blocks                []blockView
		Chapters              []sectionView
	}
	// blockView holds one of its parts, and what stands below it.
	blockView struct {
		Plot      *plotView
		Facts     *factsView
		Tables    []tableView
		Outline   *outlineView
		Footnotes []namedText
		Notes     []string
	}
	plotView struct {
		Heading, Picture template.HTML
		Name, Desc       string
		Wide             bool // as large as it is, and not as there is room
	}
	factsView struct {
		Heading template.HTML
		Items   []namedText
	}
	namedText   struct{ Name, Text string }
	outlineView struct {
		Heading template.HTML
		Roots   []branchView
	}
	branchView struct {
		Label, Signs, Detail string
		Branches             []branchView
	}
)

func (b *pageBuilder) section(d Doc, level int) sectionView {
	b.sections++
	v := sectionView{
		ID:       "part-" + strconv.Itoa(b.sections),
		Title:    visible(d.Title),
		Heading:  heading(level, d.Title),
		Lead:     d.preamble(),
		Cautions: visibleAll(d.Cautions),
		Notes:    visibleAll(d.Notes),
	}
	for _, block := range d.Body {
		if unseen(block) {
			continue
		}
		v.Blocks = append(v.Blocks, b.block(block, d, level+1))
	}
	for _, chapter := range d.Chapters {
		v.Chapters = append(v.Chapters, b.section(chapter, level+1))
	}
	return v
}

func (b *pageBuilder) block(block Block, d Doc, level int) blockView {
	switch block := block.(type) {
	case Table:
		s := block.sheet(b.numerals)
		view := b.table(s, block.Title, d.Title, level)
		if view.Cut != "" && b.beside != nil {
			view.Cut = b.cut(s, b.beside(d, block)+" has them all")
		}
		return blockView{
			Tables:    []tableView{view},
			Footnotes: s.footnotes.view(),
			Notes:     visibleAll(block.Notes),
		}
	case Facts:
		return b.facts(block, level)
	case Outline:
		var notes footnotes
		return blockView{
			Outline:   &outlineView{heading(level, block.Title), branches(block.Roots, &notes)},
			Footnotes: notes.view(),
		}
	case Plot:
		b.plots++
		title, desc := block.caption()
		picture := drawing{numerals: b.numerals, id: "plot-" + strconv.Itoa(b.plots)}.svg(block)
		return blockView{Plot: &plotView{heading(level, title), template.HTML(picture), visible(title), visible(desc), wide(block)}}
	}
	return blockView{}
}

func (b *pageBuilder) facts(f Facts, level int) blockView {
	var notes footnotes
	view := blockView{Facts: &factsView{Heading: heading(level, f.Title)}}
	if f.Title != "" {
		level++ // of the headings below that one
	}
	for _, item := range f.Items {
		if item.For == Machines {
			continue
		}
		name := item.title()
		if m, isMatrix := item.Value.(Matrix); isMatrix {
			view.Tables = append(view.Tables, b.table(m.sheet(b.numerals, item.Decimals, 0, len(m.Names)), name, name, level))
			continue
		}
		view.Facts.Items = append(view.Facts.Items, namedText{name, b.fact(item, &notes)})
	}
	view.Footnotes = notes.view()
	return view
}

func branches(list []Branch, notes *footnotes) []branchView {
	var views []branchView
	for _, b := range list {
		v := branchView{Label: visible(b.Label), Signs: notes.sign(b.Marks), Detail: visible(b.Detail)}
		v.Branches = branches(b.Branches, notes)
		views = append(views, v)
	}
	return views
}

func (f footnotes) view() []namedText {
	var view []namedText
	for i, m := range f {
		view = append(view, namedText{footnoteSign(i), visible(m.Note)})
	}
	return view
}

func visibleAll(lines []string) []string {
	var out []string
	for _, s := range lines {
		out = append(out, visible(s))
	}
	return out
}

// heading makes a heading of a level from 1 to 6, nothing of no words. The level
// is why a template can't write it.
func heading(level int, words string) template.HTML {
	if words == "" {
		return ""
	}
	return template.HTML(fmt.Sprintf("<h%d>%s</h%[1]d>", min(level, 6), template.HTMLEscapeString(visible(words))))
}
