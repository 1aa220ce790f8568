package syntax

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// lexed shows the tokens of a text: their kinds, and the text of each.
func lexed(text string) string {
	var out []string
	for _, t := range Lex([]byte(text), source.Span{End: int32(len(text))}, nil) {
		kind := t.Kind.String()
		if t.Kind == Bad {
			kind = fmt.Sprintf("Bad%d", t.Why)
		}
		out = append(out, kind+"("+text[t.Span.Start:t.Span.End]+")")
	}
	return strings.Join(out, " ")
}

func TestLex(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"graft 48 of QA25", "Word(graft) Int(48) Reserved(of) Word(QA25)"},
		{"GRAFT 48 OF qa25", "Word(GRAFT) Int(48) Reserved(OF) Word(qa25)"},
		{"M8/east row-2 x_1 v2.1 2b", "Word(M8/east) Word(row-2) Word(x_1) Word(v2.1) Word(2b)"},
		{"Äpfel Ñandú 梨", "Word(Äpfel) Word(Ñandú) Word(梨)"},
		{"AM26: 39 took, 6 failed", "Word(AM26) Colon(:) Int(39) Word(took) Comma(,) Int(6) Word(failed)"},
		{"A x B × C", "Word(A) Word(x) Word(B) Cross(×) Word(C)"},

		// A unit or a currency code only directly behind a number; a unit also
		// behind per.
		{"tree M2 lot L", "Word(tree) Word(M2) Word(lot) Word(L)"},
		{"3 L 9 MM 60 m2 15 % 2 in", "Int(3) Unit(L) Int(9) Unit(MM) Int(60) Unit(m2) Int(15) Unit(%) Int(2) Unit(in)"},
		{"per kg per h each", "Reserved(per) Unit(kg) Reserved(per) Unit(h) Reserved(each)"},
		{"12.50 EUR 12 eur EUR", "Decimal(12.50) Currency(EUR) Int(12) Word(eur) Word(EUR)"},
		{"12 MRU 3 XCG 5 BGN 7 DEM 8 XAU", "Int(12) Currency(MRU) Int(3) Currency(XCG) Int(5) Currency(BGN) Int(7) Word(DEM) Int(8) Word(XAU)"},
		{"12 AND 3", "Int(12) Reserved(AND) Int(3)"},
		{"9mm 3L 12.50EUR 3h20min 60m2 15%", "Int(9) Unit(mm) Int(3) Unit(L) Decimal(12.50) Currency(EUR) Int(3) Unit(h) Int(20) Unit(min) Int(60) Unit(m2) Int(15) Unit(%)"},
		{"9mmx 3Lx 12EURO 2h30", "Word(9mmx) Word(3Lx) Word(12EURO) Word(2h30)"},

		// Dates by ISO 8601, known to the day or the month.
		{"2026-03-02 2026-03 2013", "Date(2026-03-02) Month(2026-03) Int(2013)"},
		{"2026–03–02", "Date(2026–03–02)"},
		{"2026-3-2 02.03.2026 3/2026 40-50", "Bad4(2026-3-2) Bad4(02.03.2026) Bad4(3/2026) Bad4(40-50)"},

		// Numbers that are not.
		{"25,2", "Bad3(25,2)"},
		{"1,200.50 1.200,50 1,2,3", "Bad3(1,200.50) Bad3(1.200,50) Bad3(1,2,3)"},
		{"M7,8", "Word(M7) Bad3(,) Int(8)"},
		{"25, 2 M7,M8", "Int(25) Comma(,) Int(2) Word(M7) Comma(,) Word(M8)"},
		{"-5 −5 .5 - _x", "Bad5(-5) Bad5(−5) Bad4(.5) Bad2(-) Bad2(_x)"},
		{"1.2.3 12. AM26. 5-", "Bad4(1.2.3) Int(12) Bad6(.) Word(AM26) Bad6(.) Int(5) Bad6(-)"},

		// Quotes, straight and as telephones write them.
		{`"Quince BA" "a \" b" "c \\"`, `Quoted("Quince BA") Quoted("a \" b") Quoted("c \\")`},
		{"“Quince BA” „Quitte“ ″x″", "Quoted(“Quince BA”) Quoted(„Quitte“) Quoted(″x″)"},
		{`"it is # no comment" # but this is`, `Quoted("it is # no comment")`},
		{"\"open\nnext", "Bad1(\"open) Word(next)"},
		{`"open \"`, `Bad1("open \")`},
		{"'Glenn' ‘x’", "Bad7(') Word(Glenn) Bad7(') Bad7(‘) Word(x) Bad7(’)"},

		// Blanks and line ends.
		{"a\u00a0b\u202fc\td", "Word(a) Word(b) Word(c) Word(d)"},
		{"a\r\nb", "Word(a) Word(b)"},
		{"a\rb\x00c", "Word(a) Bad8(\r) Word(b) Bad8(\x00) Word(c)"},
		{"a \u202e b", "Word(a) Bad8(\u202e) Word(b)"},
		{"(a) 5 € ;", "Bad2(() Word(a) Bad2()) Int(5) Bad2(€) Bad2(;)"},
		{"\xff", "Bad8(\xff)"},
		{"", ""},
	} {
		if got := lexed(c.text); got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestQuoteAndUnquote(t *testing.T) {
	for _, s := range []string{"Quince BA", `say "no"`, `back\slash`, "", "ü"} {
		if got := Unquote(Quote(s)); got != s {
			t.Errorf("%q is quoted as %s and read as %q", s, Quote(s), got)
		}
	}
	if got := Unquote("“Quince BA”"); got != "Quince BA" {
		t.Errorf("curly quotes are read as %q", got)
	}
}

func TestSpell(t *testing.T) {
	for name, want := range map[string]string{
		"AM26": "AM26", "M8/east": "M8/east", "2b": "2b", "Quince BA": `"Quince BA"`, "of": `"of"`, "Worker": `"Worker"`,
		"12": `"12"`, "9mm": `"9mm"`, "2026-03-02": `"2026-03-02"`, "a.": `"a."`, "": `""`, "row–2": `"row–2"`,
	} {
		if got := Spell(name); got != want {
			t.Errorf("%q is spelled %s, want %s", name, got, want)
		}
	}
}

// FuzzLex holds that tokens and comments are the text: between them stand only
// blanks and line ends, and nothing is read twice.
func FuzzLex(f *testing.F) {
	for _, s := range []string{
		"graft 48 of \"Quince BA\" # c", "9mm 3L 25,2 “x” −5", "a\r\nb\rc", "\"open", "2026–03–02 M7,8", "\xef\xbb\xbf a", "1.2.3. 3h20min", "# only",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		whole := source.Span{End: int32(len(b))}
		toks := Lex(b, whole, nil)
		parts := make([]source.Span, 0, len(toks))
		for _, tok := range toks {
			parts = append(parts, tok.Span)
		}
		Trivia(b, whole, func(s source.Span) { parts = append(parts, s) })
		covered := make([]bool, len(b))
		for _, p := range parts {
			if p.Len() <= 0 {
				t.Fatalf("an empty token at %d in %q", p.Start, b)
			}
			for i := p.Start; i < p.End; i++ {
				if covered[i] {
					t.Fatalf("byte %d of %q is in two tokens", i, b)
				}
				covered[i] = true
			}
		}
		for off := 0; off < len(b); {
			c, size := classOf(b, off)
			_, runeSize := utf8.DecodeRune(b[off:])
			if size != runeSize {
				t.Fatalf("character at %d of %q: %d bytes, want %d", off, b, size, runeSize)
			}
			if !covered[off] && c != blank && b[off] != '\r' {
				t.Fatalf("byte %d of %q is in no token", off, b)
			}
			off += size
		}
	})
}

// TestCurrencies checks codes of ISO 4217 (List one, as x/text has it from the
// Unicode CLDR), and words of three capitals that are none.
func TestCurrencies(t *testing.T) {
	for _, code := range []string{"EUR", "USD", "AUD", "GBP", "JPY", "INR", "ZAR", "CHF", "BRL", "MXN", "KES"} {
		if got := lexed("5 " + code); got != "Int(5) Currency("+code+")" {
			t.Errorf("5 %s is read as %s", code, got)
		}
	}
	for _, word := range []string{"EUX", "QQQ", "eur", "EURO", "AM2"} {
		if got := lexed("5 " + word); got != "Int(5) Word("+word+")" {
			t.Errorf("5 %s is read as %s", word, got)
		}
	}
}

func TestUnits(t *testing.T) {
	for spelling, want := range map[string]fact.Unit{
		"kg": fact.Kilogram, "KG": fact.Kilogram, "lbs": fact.Pound, "in": fact.Inch, "l": fact.Litre, "L": fact.Litre, "ML": fact.Millilitre,
		"H": fact.Hour, "Day": fact.Day, "weeks": fact.Week, "m2": fact.SquareM, "%": fact.Percent, "ppm": fact.PartsPerM,
	} {
		if got, ok := UnitNamed(spelling); !ok || got != want {
			t.Errorf("%s is the unit %q", spelling, got)
		}
	}
	for _, word := range []string{"", "m", "litres", "each", "fruit", "mmm"} {
		if got, ok := UnitNamed(word); ok {
			t.Errorf("%q is the unit %q", word, got)
		}
	}
}
