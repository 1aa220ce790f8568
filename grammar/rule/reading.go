package rule

import "github.com/budstick/budstick/grammar/finding"

// The rules about how a sentence is written. They are found while an entry is
// read, and an entry that breaks one does not count.
var (
	textRule = &Rule{
		Name: "text", Severity: finding.Error,
		Summary: "the file is no UTF-8 text",
		Why: "A journal must read the same on every machine and in twenty years. A byte that is no text shows differently everywhere, " +
			"so nothing of such a file is read. Most editors can save it anew as UTF-8.",
		Bad:  "2026-03-02\nnote \"caf\xe9 on the corner asks for loquats\"\n",
		Good: "2026-03-02\nnote \"café on the corner asks for loquats\"\n",
	}
	versionRule = &Rule{
		Name: "version", Severity: finding.Error,
		Summary: "the journal is in a version of the language that this tool does not read",
		Why:     "A newer journal may hold sentences that would be misread here.",
		Bad:     "budstick 2\n",
		Good:    "budstick 1\n",
	}
	verbRule = &Rule{
		Name: "verb", Severity: finding.Error,
		Summary: "an entry begins with a word that is no verb of the language",
		Why:     "An entry begins in the first column with what was done, so that the tool knows what to expect after it.",
		Bad:     kestrel + "grafft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
		Good:    kestrel + "graft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
	}
	indentRule = &Rule{
		Name: "indent", Severity: finding.Error,
		Summary: "a line is indented that begins an entry, or is not that goes on with one",
		Why: "What starts in the first column starts something; an indented line goes on with the entry above. " +
			"One broken entry can then never hide the next.",
		Bad:  kestrel + "graft 40 of QB25 with M7 by cleft as AM26 worker Ines\nat shade-1\n",
		Good: kestrel + "graft 40 of QB25 with M7 by cleft as AM26 worker Ines\n  at shade-1\n",
	}
	sentenceRule = &Rule{
		Name: "sentence", Severity: finding.Error,
		Summary: "a sentence stops making sense",
		Why: "Each verb has its own sentence, which the message shows. A sentence that is only half understood would move the wrong plants, " +
			"so it counts for nothing until it is mended.",
		Bad:  kestrel + "graft 40 QB25 with M7 by cleft as AM26 worker Ines\n",
		Good: kestrel + "graft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
	}
	nameRule = &Rule{
		Name: "name", Severity: finding.Error,
		Summary: "a name is missing, empty, or is a word of the language",
		Why:     "A word such as of or with can't be a bare name, since the sentence would read in two ways; in quotes it can.",
		Bad:     kestrel + "note M7 \"\"\nlose 2 of QB25 to \" \"\n",
		Good:    kestrel + "lose 2 of QB25 to unknown\ncause unknown\n",
	}
	quoteRule = &Rule{
		Name: "quote", Severity: finding.Error,
		Summary: "a text has no closing quote, or stands in single ones",
		Why:     "A quoted text ends on its own line, so that a forgotten quote costs one entry and not the rest of the file.",
		Bad:     kestrel + "note QB25 \"leafing out\n",
		Good:    kestrel + "note QB25 \"leafing out\"\n",
	}
	signRule = &Rule{
		Name: "sign", Severity: finding.Error,
		Summary: "a sign stands where it means nothing",
		Why:     "Names are letters, digits and - _ . / between them; with other signs they stand in quotes.",
		Bad:     kestrel + "note M7 \"in bloom\" tag flowers!\n",
		Good:    kestrel + "note M7 \"in bloom\" tag flowers\n",
	}
	noDay = &Rule{
		Name: "no-day", Severity: finding.Error,
		Summary: "something happened, but no day stands above it",
		Why:     "Ages, checks and seasons are reckoned from days. Only standing facts may come before the first day.",
		Bad:     "variety \"Quince BA\" species \"Cydonia oblonga\" use rootstock\nsow 120 seed of \"Quince BA\" as QA25\n",
		Good:    "variety \"Quince BA\" species \"Cydonia oblonga\" use rootstock\n2026-03-02\nsow 120 seed of \"Quince BA\" as QA25\n",
	}
	clauseMissing = &Rule{
		Name: "clause-missing", Severity: finding.Error,
		Summary: "an entry lacks what it can't do without",
		Why:     "A graft without wood has no variety, a lot without a name can't be found again, a loss without a cause teaches nothing.",
		Bad:     kestrel + "graft 40 of QB25 by cleft as AM26 worker Ines\n",
		Good:    kestrel + "graft 40 of QB25 with M7 by cleft as AM26 worker Ines\n",
	}
	clauseMisplaced = &Rule{
		Name: "clause-misplaced", Severity: finding.Error,
		Summary: "an entry says something that makes no sense on it",
		Why:     "A plant that is culled is thrown out by choice and has no cause of death; stocks grafted into a tree make no lot.",
		Bad:     kestrel + "cull 3 of QB25 to frost\n",
		Good:    kestrel + "cull 3 of QB25 because \"crooked\"\n",
	}
	clauseTwice = &Rule{
		Name: "clause-twice", Severity: finding.Error,
		Summary: "an entry says the same thing twice",
		Why:     "Of two places or two names only one can be true. Workers, costs, notes and tags may stand several times.",
		Bad:     kestrel + "pot QB25 to 3 L to 5 L\n",
		Good:    kestrel + "pot QB25 to 3 L\n",
	}
	aboutRule = &Rule{
		Name: "about", Severity: finding.Error,
		Summary: "a number is only about right where it must be exact",
		Why:     "Losses, fruit and a sowing may be estimated. What is grafted, sold or counted is told in whole plants: buyers and the book hold you to it.",
		Bad:     bench + "2026-11-20\nsell about 10 of AM26 to Bob at 19.00 each\n",
		Good:    bench + "2026-11-20\nsell 10 of AM26 to Bob at 19.00 each\n",
	}
	stateRule = &Rule{
		Name: "state", Severity: finding.Error,
		Summary: "an act names plants of a state that it does not draw from",
		Why:     "Only failed plants are released or revived, and only attached ones severed.",
		Bad:     bench + "revive 2 living of AM26\n",
		Good:    bench + "revive 2 failed of AM26\n",
	}
)
