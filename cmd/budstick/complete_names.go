package main

import (
	"cmp"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// namesFor gives the names of a journal that the value of a flag may be.
var namesFor = map[string]func(*nursery.Nursery) []way{
	"variety": varietyWays,
	"stock":   varietyWays,
	"mother": func(n *nursery.Nursery) []way {
		return waysOf(n.Trees, func(t *nursery.Tree) way { return way{t.Name, t.Identity().String()} })
	},
	"method": func(n *nursery.Nursery) []way {
		return waysOf(n.Methods, func(m *nursery.Method) way { return way{m.Name, "method"} })
	},
	"worker": func(n *nursery.Nursery) []way {
		return waysOf(n.Workers, func(w *nursery.Worker) way { return way{w.Name, "worker"} })
	},
	"place": func(n *nursery.Nursery) []way {
		return waysOf(n.Places, func(p *nursery.Place) way { return way{p.Name, "place"} })
	},
	"tag":    tagWays,
	"season": seasonWays,
}

func waysOf[T any](list []T, of func(T) way) []way {
	ways := make([]way, len(list))
	for i, x := range list {
		ways[i] = of(x)
	}
	return ways
}

func varietyWays(n *nursery.Nursery) []way {
	return waysOf(n.Varieties, func(v *nursery.Variety) way { return way{v.Name, cmp.Or(v.Species, "variety")} })
}

func tagWays(n *nursery.Nursery) []way {
	tags := map[string]bool{}
	for _, e := range n.Entries {
		if e.Extra != nil {
			for _, tag := range e.Extra.Tags {
				tags[tag.Text] = true
			}
		}
	}
	return waysOf(slices.Sorted(maps.Keys(tags)), func(tag string) way { return way{tag, "tag"} })
}

// seasonWays lists the seasons from the first entry to the last.
func seasonWays(n *nursery.Nursery) []way {
	i := slices.IndexFunc(n.Entries, func(e *fact.Entry) bool { return e.Date != 0 })
	if i < 0 {
		return nil
	}
	var ways []way
	for s := fact.SeasonOf(n.Entries[i].Date, n.SeasonFrom()); s.First <= n.Last; s = fact.SeasonNamed(s.Year()+1, n.SeasonFrom()) {
		ways = append(ways, way{strconv.Itoa(s.Year()), "season"})
	}
	return ways
}

// thingWays lists all that has a line of descent.
func thingWays(n *nursery.Nursery) []way {
	var ways []way
	for thing := range n.All() {
		ways = append(ways, way{thing.Label(), thing.Origin().Verb})
	}
	return append(ways, varietyWays(n)...)
}

// load reads the journal that the line is about: the files that stand on it, or
// those of the folder at hand. What can't be read has no names.
func (c *completer) load() *nursery.Nursery {
	var paths []string
	for _, word := range c.before {
		if info, err := os.Stat(word); err == nil && (info.IsDir() || strings.HasSuffix(word, suffix)) {
			paths = append(paths, word)
		}
	}
	j, err := load(c.t, paths, "")
	if err != nil {
		j = journal{}
	}
	return nursery.Replay(j.pages, 0)
}
