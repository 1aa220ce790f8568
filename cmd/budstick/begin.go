package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

var beginCommand = &command{
	name:    "begin",
	summary: "write your first journal, by flags or by a few questions",
	usage:   "[FILE]",
	long: `Writes a journal with what stands on the farm: the farm itself, a first variety, a mother tree of it, who works. On a terminal
it asks for what the flags don't say, and an empty answer leaves a thing out; elsewhere it asks nothing, and --farm is needed.
Without a FILE it is ` + firstFile + `.

It never writes over a file, nor beside a journal that is there already: all journals of a folder are one, and a farm is
written once in it.`,
	example: `--farm "Kestrel Hollow" --currency EUR --season-from October`,
	setup: func(flags *pflag.FlagSet) action {
		b := &beginning{}
		for _, q := range b.questions() {
			flags.StringVar(q.to, q.flag, "", q.usage)
		}
		return b.run
	},
}

// firstFile is the journal that begin writes where it is told no other name.
const firstFile = "farm" + suffix

// A beginning is what a first journal says.
type beginning struct{ farm, currency, season, variety, species, mother, worker string }

// A question is one thing that a beginning can say.
type question struct {
	flag, usage string
	ask         string  // the question as it is put on a terminal
	to          *string // where the answer goes
	needs       *string // it is asked only where this is given
	wants       *string // what can't be written without an answer
}

func (b *beginning) questions() []question {
	return []question{
		{flag: "farm", usage: "the farm, by its `NAME`", ask: "What is the farm called?", to: &b.farm},
		{flag: "currency", usage: "the money meant where none is written, by its `CODE` of ISO 4217",
			ask: "Which money do you reckon in, such as EUR?", to: &b.currency},
		{flag: "season-from", usage: "the growing year begins in this `MONTH`",
			ask: "In which month does your growing year begin, such as October?", to: &b.season},
		{flag: "variety", usage: "a first variety, `NAME`", ask: "A variety that you propagate, such as Amberlight?", to: &b.variety},
		{flag: "species", usage: "the botanical `NAME` of its species",
			ask: "What is its species, such as Eriobotrya japonica?", to: &b.species, needs: &b.variety, wants: &b.variety},
		{flag: "mother", usage: "a mother tree of it, by your own `NAME` for it",
			ask: "A mother tree of it, such as M7?", to: &b.mother, needs: &b.variety},
		{flag: "worker", usage: "who works, `NAME`", ask: "Who works?", to: &b.worker},
	}
}

func (b *beginning) run(t *terminal, args []string) (status, error) {
	path := firstFile
	switch {
	case len(args) > 1:
		return statusCannot, usageError{"begin writes one file", "budstick begin --help"}
	case len(args) == 1:
		path = args[0]
	}
	if err := untouched(path); err != nil {
		return statusCannot, err
	}
	if err := b.learn(t); err != nil {
		return statusCannot, err
	}
	if err := rewriteFile(path, nil, []byte(b.text())); err != nil {
		return statusCannot, err
	}
	t.say("%s: written. Write on in it with any editor, or with budstick jot; budstick lint looks it over.", path)
	return statusDone, nil
}

// untouched is an error where a first journal must not be written.
func untouched(path string) error {
	if err := newJournal(path); err != nil {
		return err
	}
	there, err := below(filepath.Dir(path))
	if err == nil && len(there) > 0 {
		return fmt.Errorf("there is a journal here already: %s; write on in it, or begin in a folder of its own", filepath.Clean(there[0]))
	}
	return nil
}

// learn hears what the flags say and, on a terminal, asks for the rest.
func (b *beginning) learn(t *terminal) error {
	flags := *b
	*b = beginning{} // so that what is wrong is found where it comes in
	if flags.farm == "" && !t.asks() {
		return usageError{`begin needs the name of the farm: --farm "Kestrel Hollow"`, "budstick begin --help"}
	}
	said := flags.questions()
	for i, q := range b.questions() {
		var err error
		switch answer := *said[i].to; {
		case answer != "":
			*q.to = answer
			err = b.hear(q)
		case q.needs != nil && *q.needs == "":
		case t.asks():
			err = b.put(t, q)
		case q.wants != nil:
			err = usageError{fmt.Sprintf("--variety needs --%s too", q.flag), "budstick begin --help"}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// hear looks over what a flag says.
func (b *beginning) hear(q question) error {
	fault := b.fault()
	if q.needs != nil && *q.needs == "" {
		fault = "it says something of a variety, so it needs --variety too"
	}
	if fault == "" {
		return nil
	}
	return usageError{fmt.Sprintf("--%s: %s", q.flag, fault), "budstick begin --help"}
}

// put asks until the answer can be written.
func (b *beginning) put(t *terminal, q question) error {
	for {
		answer, err := t.ask(q.ask)
		if err != nil {
			return errors.New("the answers end here, so nothing is written")
		}
		*q.to = strings.TrimSpace(answer)
		if *q.to == "" {
			if q.to == &b.farm {
				t.say("A journal begins with the farm's name.")
				continue
			}
			if q.wants != nil {
				t.say("Then %s is left out; it can be written later.", *q.wants)
				*q.wants = ""
			}
			return nil
		}
		fault := b.fault()
		if fault == "" {
			return nil
		}
		t.say("%s", fault)
	}
}

// text is the journal, as far as it is known.
func (b *beginning) text() string {
	var s strings.Builder
	s.WriteString("budstick 1\n\n# What stands above the first day holds always.\n")
	clause := func(keyword, value string) {
		if value != "" {
			fmt.Fprintf(&s, "%s %s", keyword, syntax.Spell(value))
		}
	}
	clause("farm", b.farm)
	clause(" currency", b.currency)
	clause(" season from", b.season)
	s.WriteString("\n")
	if b.species != "" {
		clause("variety", b.variety)
		clause(" species", b.species)
		s.WriteString("\n")
	}
	if b.mother != "" {
		clause("tree", b.mother)
		clause(" variety", b.variety)
		s.WriteString("\n")
	}
	if b.worker != "" {
		clause("worker", b.worker)
		s.WriteString("\n")
	}
	s.WriteString("\n# Below a line with its day stands what was done, one sentence an entry.\n")
	return s.String()
}

// fault is what the linter has to say of the journal so far: nothing may be
// wrong with it.
func (b *beginning) fault() string {
	page := entry.Read(source.New(firstFile, []byte(b.text())))
	for _, f := range rule.Check(nursery.Replay([]*entry.Page{page}, 0)) {
		return f.Message
	}
	return ""
}
