package nursery

import "github.com/budstick/budstick/grammar/finding"

// The words that go with a number in a message.

func isOrAre(n int32) string   { return finding.Either(n, "is", "are") }
func wasOrWere(n int32) string { return finding.Either(n, "was", "were") }
func hasOrHave(n int32) string { return finding.Either(n, "has", "have") }
func seeds(n int32) string     { return finding.Counted(n, "seed", "seeds") }
