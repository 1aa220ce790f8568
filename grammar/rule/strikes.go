package rule

import "github.com/budstick/budstick/grammar/finding"

// The rules about putting the record right, which the replay finds.
var (
	strikeNothing = &Rule{
		Name: "strike-nothing", Severity: finding.Error,
		Summary: "a strike names a line where no entry begins",
		Why:     "The record is put right by striking an earlier entry of the same file, by the line of its first word.",
		Bad:     kestrel + "pot QB25 to 3 L\nstrike line 11 pot QB25 because \"it was another lot\"\n",
		Good:    kestrel + "pot QB25 to 3 L\nstrike line 13 pot QB25 because \"it was another lot\"\n",
	}
	strikeNever = &Rule{
		Name: "strike-never", Severity: finding.Error,
		Summary: "a strike is of an entry that can't be struck",
		Why:     "A strike, a seal and the farm itself stay. What was struck by mistake is written anew.",
		Bad:     kestrel + "strike line 1 farm because \"sold\"\n",
		Good:    kestrel + "note \"the farm is sold\"\n",
	}
	strikeTwice = &Rule{
		Name: "strike-twice", Severity: finding.Error,
		Summary: "an entry is struck that was struck already",
		Why:     "The number of the line is likely wrong, and the entry that was meant still counts.",
		Bad:     kestrel + "pot QB25 to 3 L\nstrike line 13 pot QB25 because \"it was another lot\"\nstrike line 13 pot because \"it was another lot\"\n",
		Good:    kestrel + "pot QB25 to 3 L\nstrike line 13 pot QB25 because \"it was another lot\"\n",
	}
	strikeWords = &Rule{
		Name: "strike-words", Severity: finding.Error,
		Summary: "the words of a strike are not how that line begins",
		Why:     "The words behind the number prove that the right line is meant: without them a line that was added above would make the strike hit another entry.",
		Bad:     kestrel + "pot QB25 to 3 L\nstrike line 13 move QB25 because \"it was another lot\"\n",
		Good:    kestrel + "pot QB25 to 3 L\nstrike line 13 pot QB25 because \"it was another lot\"\n",
	}
	strikeBlind = &Rule{
		Name: "strike-blind", Severity: finding.Hint,
		Summary: "a strike does not say how the line begins",
		Why:     "With the first words of the line behind its number, a slip in the number is found.",
		Bad:     kestrel + "pot QB25 to 3 L\nstrike line 13 because \"it was another lot\"\n",
		Good:    kestrel + "pot QB25 to 3 L\nstrike line 13 pot QB25 because \"it was another lot\"\n",
	}
	clearNothing = &Rule{
		Name: "clear-nothing", Severity: finding.Error,
		Summary: "a mark is taken off that is not there",
		Why:     "Another tree was meant, or the mark was taken off before.",
		Bad:     kestrel + "clear M7 sick because \"two clean tests\"\n",
		Good:    kestrel + "mark M7 sick because \"leaf spot\"\nclear M7 sick because \"two clean tests\"\n",
	}
)
