package table

import (
	"strings"

	"github.com/rivo/uniseg"
)

// width returns how many cells of a terminal s takes.
func width(s string) int { return uniseg.StringWidth(s) }

// wrap breaks s into lines no wider than limit where a line may be broken by
// Unicode's rules (UAX 14), and inside a word, between characters as people see
// them, only where the word alone is too wide. The result has at least one line.
func wrap(s string, limit int) []string {
	var lines []string
	line := ""
	state := -1
	for len(s) > 0 {
		var piece string
		piece, s, state = segment(s, state)
		if width(strings.TrimRight(line+piece, " ")) <= limit {
			line += piece
			continue
		}
		if line != "" {
			lines = append(lines, strings.TrimRight(line, " "))
		}
		pieces := chop(piece, limit)
		line = pieces[len(pieces)-1]
		for _, part := range pieces[:len(pieces)-1] {
			lines = append(lines, strings.TrimRight(part, " "))
		}
	}
	return append(lines, strings.TrimRight(line, " "))
}

// segment is the part of s up to where a line may be broken. The dashes of a flag
// stay with its name.
func segment(s string, state int) (piece, rest string, next int) {
	piece, rest, _, next = uniseg.FirstLineSegmentInString(s, state)
	if strings.HasSuffix(piece, "--") && rest != "" {
		var name string
		name, rest, _, next = uniseg.FirstLineSegmentInString(rest, next)
		piece += name
	}
	return piece, rest, next
}

// chop cuts s between characters into parts no wider than limit, not counting
// their trailing blanks. A single character that is wider stays whole.
func chop(s string, limit int) []string {
	var parts []string
	part := ""
	state := -1
	for len(s) > 0 {
		var cluster string
		cluster, s, _, state = uniseg.FirstGraphemeClusterInString(s, state)
		if part != "" && cluster != " " && width(part+cluster) > limit {
			parts = append(parts, part)
			part = ""
		}
		part += cluster
	}
	return append(parts, part)
}

// longestWord returns the width of the widest part of s that wrap would keep
// whole.
func longestWord(s string) int {
	longest, state := 0, -1
	for len(s) > 0 {
		var piece string
		piece, s, state = segment(s, state)
		longest = max(longest, width(strings.TrimRight(piece, " ")))
	}
	return longest
}

// pad fills s with blanks to the width, on its left when right is set.
func pad(s string, to int, right bool) string {
	blanks := strings.Repeat(" ", max(to-width(s), 0))
	if right {
		return blanks + s
	}
	return s + blanks
}
