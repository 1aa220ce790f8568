package entry

import "github.com/budstick/budstick/grammar/fact"

// A hash is a word to the lexer, or in the rarest case a number.
type seal struct {
	Hash ref `parser:"'seal' 'sha256' @(Word | Int | Quoted)"`
}

var sealKind = kindOf(Kind{
	Summary: "everything above is closed",
	Text: `Written by the tool. A later change of any byte above it is found. The hash is SHA-256 over all that stands above the seal's line, with ` +
		`LF at the ends of lines and without a byte-order mark.`,
	Pattern: `seal sha256 ` + "9f2c6b0e5d7a41388c1d4be0a7f35e926d08b1c4f7a2e3905b6c8d1f20a4e7b3",
}, func(r *reader, s *seal) fact.Effect {
	hash := r.nameAt(s.Hash)
	if len(hash.Text) != 64 || !onlyHex(hash.Text) {
		r.errorf(hash.Span, "seal", "a seal is 64 hexadecimal digits, as the tool writes it; this one has been changed")
	}
	return &fact.Seal{Hash: hash}
})

func onlyHex(s string) bool {
	for _, c := range []byte(s) {
		if !(c >= '0' && c <= '9' || c >= 'a' && c <= 'f' || c >= 'A' && c <= 'F') {
			return false
		}
	}
	return true
}
