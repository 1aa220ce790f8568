package pedigree

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestRefusedPedigrees(t *testing.T) {
	for _, c := range []struct {
		name        string
		individuals []Individual
		want        []string // one part of each message
	}{
		{"no name", []Individual{{Name: "Amberlight"}, {SeedParent: "Amberlight"}}, []string{"variety number 2 "}},
		{"twice", []Individual{{Name: "Amberlight"}, {Name: "Amberlight"}}, []string{`"Amberlight" stands twice`}},
		{"undeclared seed parent", []Individual{{Name: "Amberlight", SeedParent: "Redwing"}}, []string{`"Amberlight" comes from "Redwing", which isn't`}},
		{"undeclared pollen parent", []Individual{{Name: "Amberlight", PollenParent: "Redwing"}}, []string{`"Redwing", which isn't`}},
		{"undeclared source", []Individual{{Name: "Amberlight", CloneOf: "Redwing"}}, []string{`"Redwing", which isn't`}},
		{
			"clone with parents",
			[]Individual{{Name: "Redwing"}, {Name: "Emberlight", CloneOf: "Redwing", SeedParent: "Redwing"}},
			[]string{`state the parents on "Redwing" alone`},
		},
		{"its own parent", []Individual{{Name: "Amberlight", PollenParent: "Amberlight"}}, []string{`"Amberlight" is stated as its own parent`}},
		{
			"everything at once",
			[]Individual{{Name: ""}, {Name: "A", SeedParent: "B"}, {Name: "B", CloneOf: "A"}, {Name: "C", SeedParent: "D"}},
			[]string{"no name", `"C" comes from "D"`, `"A" comes from "B", that from "A" again`},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := New(c.individuals)
			if err == nil || p != nil {
				t.Fatalf("%v, %v", p, err)
			}
			for _, part := range c.want {
				if !strings.Contains(err.Error(), part) {
					t.Errorf("%q lacks %q", err, part)
				}
			}
			if lines := strings.Count(err.Error(), "\n") + 1; lines != len(c.want) {
				t.Errorf("%d messages, not %d:\n%v", lines, len(c.want), err)
			}
		})
	}
}

// loopsIn takes the names of every loop out of an error of New.
func loopsIn(err error) [][]string {
	var loops [][]string
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, one := range joined.Unwrap() {
			if loop, ok := errors.AsType[*LoopError](one); ok {
				loops = append(loops, loop.Names)
			}
		}
	}
	return loops
}

func TestLoopsAreNamed(t *testing.T) {
	for _, c := range []struct {
		name        string
		individuals []Individual
		want        [][]string
	}{
		{"self", []Individual{{Name: "A", CloneOf: "A"}}, [][]string{{"A"}}},
		{
			"through seed, pollen and clone, below a founder and above a seedling",
			[]Individual{
				{Name: "young", SeedParent: "B", PollenParent: "founder"},
				{Name: "A", SeedParent: "founder", PollenParent: "C"},
				{Name: "B", CloneOf: "A"},
				{Name: "C", SeedParent: "B"},
				{Name: "founder"},
			},
			[][]string{{"A", "C", "B"}},
		},
		{
			"two loops, one above the other",
			[]Individual{
				{Name: "A", SeedParent: "B"}, {Name: "B", SeedParent: "A", PollenParent: "C"},
				{Name: "C", SeedParent: "D"}, {Name: "D", SeedParent: "C"},
			},
			[][]string{{"A", "B"}, {"C", "D"}},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := New(c.individuals)
			if diff := cmp.Diff(c.want, loopsIn(err)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Any parents at all: a pedigree is either refused with loops that are truly
// there, or it has none.
func TestLoopsAreTrue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "individuals")
		name := func(label string) string {
			at := rapid.IntRange(-n, n-1).Draw(t, label)
			if at < 0 {
				return ""
			}
			return fmt.Sprint(at)
		}
		individuals := make([]Individual, n)
		for i := range individuals {
			individuals[i].Name = fmt.Sprint(i)
			if rapid.Bool().Draw(t, "clone") {
				individuals[i].CloneOf = name("source")
			} else {
				individuals[i].SeedParent, individuals[i].PollenParent = name("seed"), name("pollen")
			}
		}
		_, err := New(individuals)
		loops := loopsIn(err)
		if (len(loops) > 0) != hasLoop(individuals) {
			t.Fatalf("loops %v", loops)
		}
		for _, loop := range loops {
			for i, member := range loop {
				next := loop[(i+1)%len(loop)]
				at := slices.IndexFunc(individuals, func(x Individual) bool { return x.Name == member })
				if one := individuals[at]; one.SeedParent != next && one.PollenParent != next && one.CloneOf != next {
					t.Fatalf("%v: %q doesn't come from %q", loop, member, next)
				}
			}
			if len(slices.Compact(slices.Sorted(slices.Values(loop)))) != len(loop) {
				t.Fatalf("%v goes through one twice", loop)
			}
		}
	})
}

// hasLoop follows all parents for as many generations as there are
// individuals: whoever is still going then is going round.
func hasLoop(individuals []Individual) bool {
	up := map[string][]string{}
	reached := map[string]bool{}
	for _, one := range individuals {
		up[one.Name] = []string{one.SeedParent, one.PollenParent, one.CloneOf}
		reached[one.Name] = true
	}
	for range individuals {
		further := map[string]bool{}
		for name := range reached {
			for _, parent := range up[name] {
				if parent != "" {
					further[parent] = true
				}
			}
		}
		reached = further
	}
	return len(reached) > 0
}

func TestMessageOfLongLoop(t *testing.T) {
	individuals := make([]Individual, 1000)
	for i := range individuals {
		individuals[i] = Individual{Name: fmt.Sprintf("V%d", i), CloneOf: fmt.Sprintf("V%d", (i+1)%len(individuals))}
	}
	_, err := New(individuals)
	if got := loopsIn(err); len(got) != 1 || len(got[0]) != len(individuals) {
		t.Fatalf("%d loops", len(got))
	}
	if text := err.Error(); len(text) > 500 || !strings.Contains(text, `"V8", that from 991 more`) {
		t.Errorf("%d bytes: %s", len(text), text)
	}
}

func TestUnknownName(t *testing.T) {
	p := mustNew(t, []Individual{{Name: "Amberlight"}})
	if _, err := p.Coancestry("Amberlight", "Firstfig"); err == nil || !strings.Contains(err.Error(), `"Firstfig"`) {
		t.Errorf("%v", err)
	}
	if _, err := p.Inbreeding("Firstfig"); err == nil || !strings.Contains(err.Error(), `"Firstfig"`) {
		t.Errorf("%v", err)
	}
	if _, err := p.Coancestry(slices.Repeat([]string{"Amberlight"}, maxTable+1)...); err == nil {
		t.Error("a table too large is taken")
	}
}

// Lines of 100,000 generations whose kinship at the end has a closed form.
func TestDeepLines(t *testing.T) {
	const generations = 100_000
	at := func(i int) string { return fmt.Sprintf("V%d", i) }
	line := func(next func(i int) Individual) []Individual {
		individuals := []Individual{{Name: "V0"}, {Name: "V1"}}
		for i := 2; i < generations; i++ {
			one := next(i)
			one.Name = at(i)
			individuals = append(individuals, one)
		}
		slices.Reverse(individuals) // youngest first: nothing may rest on the order
		return individuals
	}
	youngest := at(generations - 1)
	for _, c := range []struct {
		name       string
		next       func(i int) Individual
		inbreeding float64
		with       string
		coancestry float64
	}{
		{"clones", func(i int) Individual { return Individual{CloneOf: at(i - 1)} }, 0, "V1", 0.5},
		{"one parent", func(i int) Individual { return Individual{SeedParent: at(i - 1)} }, 0, "V1", 0},
		{"selfing", func(i int) Individual { return Individual{SeedParent: at(i - 1), PollenParent: at(i - 1)} }, 1, "V1", 0.5},
		{"backcross", func(i int) Individual { return Individual{SeedParent: at(i - 1), PollenParent: "V0"} }, 0.5, "V0", 0.5},
		{
			"sibs", // each pair of sibs comes from the pair before
			func(i int) Individual { return Individual{SeedParent: at(i&^1 - 2), PollenParent: at(i&^1 - 1)} },
			1, "V0", 0.25,
		},
		{"parent with offspring", func(i int) Individual { return Individual{SeedParent: at(i - 1), PollenParent: at(i - 2)} }, 1, "V0", 1. / 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := mustNew(t, line(c.next))
			table, err := p.Coancestry(youngest, c.with)
			if err != nil {
				t.Fatal(err)
			}
			f, err := p.Inbreeding(youngest)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(f[0]-c.inbreeding) > 1e-9 {
				t.Errorf("F is %v, not %v", f[0], c.inbreeding)
			}
			if math.Abs(table[0][1]-c.coancestry) > 1e-9 {
				t.Errorf("coancestry with %s is %v, not %v", c.with, table[0][1], c.coancestry)
			}
		})
	}
}
