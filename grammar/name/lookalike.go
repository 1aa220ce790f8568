package name

// lookAlikes gives the Latin letters, small, that a folded letter or sign
// looks like, small or capital; names are mostly written with capitals, so
// where the two shapes differ the capital counts. Most are single-letter rows
// of the confusables of UTS #39; a stroke through a letter (ø, ł) is taken for
// an accent.
var lookAlikes = map[rune]string{
	// Latin
	'ı': "i", 'ȷ': "j", 'ɑ': "a", 'ɡ': "g",
	'æ': "ae", 'œ': "oe", 'ø': "o", 'ł': "l", 'đ': "d", 'ð': "d", 'ħ': "h", 'ŧ': "t",
	// Greek
	'α': "a", 'β': "b", 'γ': "y", 'ε': "e", 'ζ': "z", 'η': "h", 'ι': "i", 'κ': "k",
	'μ': "m", 'ν': "n", 'ο': "o", 'ρ': "p", 'τ': "t", 'υ': "y", 'χ': "x",
	'ϝ': "f", 'ϳ': "j", 'ϻ': "m",
	// Cyrillic
	'а': "a", 'в': "b", 'г': "r", 'е': "e", 'к': "k", 'м': "m", 'н': "h", 'о': "o",
	'р': "p", 'с': "c", 'т': "t", 'у': "y", 'х': "x", 'ы': "bl", 'ь': "b", 'ю': "lo",
	'ѕ': "s", 'і': "i", 'ј': "j", 'ѡ': "w", 'ѵ': "v", 'ү': "y", 'һ': "h", 'ҽ': "e",
	'ӏ': "l", 'ӕ': "ae", 'ԁ': "d", 'ԍ': "g", 'ԛ': "q", 'ԝ': "w",
	// Signs
	'×': "x",
}
