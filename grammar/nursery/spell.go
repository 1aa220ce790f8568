package nursery

import "github.com/budstick/budstick/grammar/syntax"

// spell writes a name as a journal must: bare, or in quotes.
func spell(name string) string { return syntax.Spell(name) }
