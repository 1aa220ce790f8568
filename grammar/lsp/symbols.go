package lsp

import (
	"context"
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

// The kinds of symbols of the protocol that come nearest.
const (
	symbolNamespace = 3
	symbolClass     = 5
	symbolVariable  = 13
	symbolConstant  = 14
	symbolObject    = 19
	symbolStruct    = 23
	symbolEvent     = 24
)

// symbolOf is the kind of symbol for a name of a class.
func symbolOf(of class) int {
	switch of {
	case varieties:
		return symbolClass
	case places:
		return symbolNamespace
	case lots, tops, bundles:
		return symbolVariable
	case trees, limbs:
		return symbolObject
	case workers, parties:
		return symbolStruct
	}
	return symbolConstant
}

type symbol struct {
	Name           string   `json:"name"`
	Detail         string   `json:"detail,omitempty"`
	Kind           int      `json:"kind"`
	Range          span     `json:"range"`
	SelectionRange span     `json:"selectionRange"`
	Children       []symbol `json:"children,omitempty"`
}

// flatSymbol is for editors that know no trees.
type flatSymbol struct {
	Name          string   `json:"name"`
	Kind          int      `json:"kind"`
	Location      location `json:"location"`
	ContainerName string   `json:"containerName,omitempty"`
}

// documentSymbol is the outline of a file: what is declared above the first
// day, then the days, each with what began or was declared on it.
func documentSymbol(_ context.Context, d document, _ struct{}) (any, error) {
	list := []symbol{}
	var under []dayOf
	for one := range d.daysOf() {
		under = append(under, one)
	}
	open := -1 // the day at hand
	addDays := func(to int32) {
		for open+1 < len(under) && under[open+1].start < to {
			open++
			list = append(list, d.daySymbol(under[open]))
		}
	}
	for i, b := range d.blocks {
		names := b.names()
		for j := range b.page.Entries {
			e := &b.page.Entries[j]
			addDays(d.starts[i] + e.Span.Start)
			for ; len(names) > 0 && names[0].span.Start < e.Span.End; names = names[1:] {
				if m := names[0]; m.made && names[0].span.Start >= e.Span.Start {
					one := d.madeSymbol(d.starts[i], e, m)
					if open < 0 {
						list = append(list, one)
					} else {
						day := &list[len(list)-1]
						day.Children = append(day.Children, one)
					}
				}
			}
		}
	}
	addDays(d.len())
	if d.client.TextDocument.DocumentSymbol.HierarchicalDocumentSymbolSupport {
		return list, nil
	}
	return flattened(d.uri, list), nil
}

func (d document) daySymbol(one dayOf) symbol {
	all := source.Span{Start: one.start, End: one.end}
	line, _, _ := strings.Cut(string(d.bytes(one.start, min(one.end, one.start+40))), "\n")
	at := source.Span{Start: one.start, End: one.start + int32(len(strings.TrimRight(line, "\r")))}
	return symbol{Name: one.date.String() + " " + one.date.Weekday().String()[:3], Kind: symbolEvent, Range: d.rangeOf(all, d.encoding), SelectionRange: d.rangeOf(at, d.encoding)}
}

func (d document) madeSymbol(start int32, e *fact.Entry, m mention) symbol {
	name, _ := unquoted(e.File.Text(m.span))
	line, _, more := strings.Cut(e.File.Text(e.Span), "\n")
	if line = strings.TrimRight(line, "\r"); more {
		line += " …"
	}
	return symbol{
		Name: name, Detail: line, Kind: symbolOf(m.of),
		Range: d.rangeOf(shifted(e.Span, start), d.encoding), SelectionRange: d.rangeOf(shifted(m.span, start), d.encoding),
	}
}

func flattened(uri string, list []symbol) []flatSymbol {
	out := []flatSymbol{}
	for _, s := range list {
		out = append(out, flatSymbol{s.Name, s.Kind, location{uri, s.SelectionRange}, ""})
		for _, c := range s.Children {
			out = append(out, flatSymbol{c.Name, c.Kind, location{uri, c.SelectionRange}, s.Name})
		}
	}
	return out
}

// mostSymbols is how many names are shown for one search.
const mostSymbols = 200

// workspaceSymbol finds what was made or declared, by a part of its name.
func (s *server) workspaceSymbol(raw json.RawMessage) (answer, error) {
	p, err := decode[struct {
		Query string `json:"query"`
	}](raw)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, folder := range s.folders {
		s.journalFor(folder)
	}
	var snaps []*snapshot
	for _, key := range slices.Sorted(maps.Keys(s.journals)) {
		snaps = append(snaps, s.journals[key].snap)
	}
	return func(ctx context.Context) (any, error) {
		list := []flatSymbol{}
		for _, snap := range snaps {
			list = s.searchSymbols(ctx, list, snap, spelling.Fold(p.Query))
		}
		return list, nil
	}, nil
}

func (s *server) searchSymbols(ctx context.Context, list []flatSymbol, snap *snapshot, query string) []flatSymbol {
	for _, f := range snap.files {
		for i, b := range f.blocks {
			if ctx.Err() != nil || len(list) >= mostSymbols {
				return list
			}
			for _, m := range b.names() {
				if m.made && strings.Contains(m.key, query) && len(list) < mostSymbols {
					name, _ := unquoted(b.file.Text(m.span))
					at := location{f.uri, f.rangeOf(shifted(m.span, f.starts[i]), s.encoding)}
					list = append(list, flatSymbol{name, symbolOf(m.of), at, ""})
				}
			}
		}
	}
	return list
}

// kindWord says what a thing is.
func kindWord(t nursery.Thing) string {
	switch t := t.(type) {
	case *nursery.Tree:
		return "tree"
	case *nursery.Limb:
		return "limb"
	case *nursery.Bundle:
		if t.Noun == fact.Seed {
			return "seed"
		}
		return "wood"
	case *nursery.Lot:
		if t.Limbs {
			return "limbs"
		}
	}
	return "lot"
}
