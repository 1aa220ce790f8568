package syntax

import (
	"slices"
	"testing"
)

type choiceOfWords struct {
	A *Ref `parser:"'go' ( @'home'"`
	B *Ref `parser:"| @'home' 'again' )"`
}

type nameOrWord struct {
	Name *Ref `parser:"'go' @Word?"`
	Far  *Ref `parser:"@'far'?"`
}

type nameOrReserved struct {
	Name *Ref `parser:"'go' @Word?"`
	As   *Ref `parser:"('as' @Word)?"`
}

type reservedOrReserved struct {
	Any *Ref `parser:"'go' @Reserved?"`
	As  *Ref `parser:"('as' @Word)?"`
}

type signs struct {
	Comma *Ref `parser:"'go' ( @Comma"`
	Sign  *Ref `parser:"| ',' @Int )"`
}

type endlessList struct {
	First Ref   `parser:"'go' @Int"`
	More  []Ref `parser:"(',' @Int)*"`
	Last  *Ref  `parser:"(',' @'far')?"`
}

type twoNames struct {
	Name  Ref `parser:"'go' @(Word | Quoted)"`
	Other Ref `parser:"@(Word | Quoted)"`
}

type anythingBut struct {
	Words []Ref `parser:"'go' @((!'far')*)"`
	Far   Ref   `parser:"'far' @Int"`
}

type anythingButThis struct {
	Words []Ref `parser:"'go' @((!'far')*)"`
	Near  Ref   `parser:"@'near'"`
}

func TestConflictsAreFound(t *testing.T) {
	for _, c := range []struct {
		name    string
		grammar *Grammar
		want    []string
	}{
		{"the same word", Sentence[choiceOfWords](), []string{`behind "go" both "home" and "home" could stand`}},
		{"a name or a word", Sentence[nameOrWord](), []string{`behind "go" both <word> and "far" could stand`}},
		{"a name or a reserved word", Sentence[nameOrReserved](), nil},
		{"any reserved word or one", Sentence[reservedOrReserved](), []string{`behind "go" both <reserved> and "as" could stand`}},
		{"a sign and its kind", Sentence[signs](), []string{`behind "go" both <comma> and "," could stand`}},
		{"a list and its end", Sentence[endlessList](), []string{
			`behind <int> both "," and "," could stand`, `behind <int> both "," and "," could stand`}},
		{"two names", Sentence[twoNames](), []string{`behind <word> another name could stand`}},
		{"anything up to a word", Sentence[anythingBut](), nil},
		{"anything up to another", Sentence[anythingButThis](), []string{
			`behind "go" both ~"far" and "near" could stand`, `behind ~"far" both ~"far" and "near" could stand`}},
	} {
		if got := c.grammar.Conflicts(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
