package main

import (
	"fmt"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/rivo/uniseg"
	"github.com/spf13/pflag"
)

// helpCommand is made when it is asked for, since it lists the commands and is
// one itself.
func helpCommand() *command {
	return &command{
		name:    "help",
		summary: "tell what the program does, or one of its commands",
		usage:   "[COMMAND]",
		long:    "The same as --help on the command.",
		example: "lint",
		setup:   func(*pflag.FlagSet) action { return help },
	}
}

func help(t *terminal, args []string) (status, error) {
	list := commands()
	switch len(args) {
	case 0:
		return statusDone, t.data.print(overview(t.data, list))
	case 1:
		c, err := commandNamed(list, args[0])
		if err != nil {
			return statusCannot, err
		}
		return statusDone, t.data.print(commandHelp(t.data, c))
	}
	return statusCannot, usageError{"help is about one command at a time", "budstick help"}
}

// aboutProgram says what the program does.
const aboutProgram = "reads the journal of a nursery that propagates fruit trees, finds what contradicts itself in it, and makes reports of it"

// aboutStatus says what the status means that a run ends with.
var aboutStatus = [][2]string{
	{fmt.Sprint(statusDone), "it is done, and nothing was found at the level asked for"},
	{fmt.Sprint(statusFound), "something was found: findings, or a file that format would change"},
	{fmt.Sprint(statusCannot), "it could not be done: a slip on the command line, a file that can't be read"},
}

// overview is the help of the whole program.
func overview(s *stream, list []*command) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n", wrapped("budstick "+aboutProgram+".", 0, s.width))
	fmt.Fprintf(&b, "  budstick COMMAND [FLAGS] %s\n\n%s\n", filesUsage, s.heading("commands"))
	rows := make([][2]string, len(list))
	for i, c := range list {
		rows[i] = [2]string{c.name, c.summary}
	}
	b.WriteString(columns(rows, s.width))
	flags, _ := newFlags(nil)
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("flags of every command, anywhere on the line"), columns(flagRows(flags, isGlobal), s.width))
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("status at the end"), columns(aboutStatus, s.width))
	fmt.Fprintf(&b, "\nbudstick help COMMAND tells more.\n")
	return b.String()
}

// commandHelp is the help of one command.
func commandHelp(s *stream, c *command) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n  %s\n", wrapped("budstick "+c.name+": "+c.summary+".", 0, s.width), strings.TrimSpace("budstick "+c.name+" "+c.usage))
	for paragraph := range strings.SplitSeq(c.long, "\n\n") {
		fmt.Fprintf(&b, "\n%s\n", wrapped(strings.Join(strings.Fields(paragraph), " "), 0, s.width))
	}
	flags, _ := newFlags(c)
	c.setup(flags)
	own := func(flag string) bool { return !isGlobal(flag) }
	if rows := flagRows(flags, own); len(rows) > 0 {
		fmt.Fprintf(&b, "\n%s\n%s", s.heading("flags"), columns(rows, s.width))
	}
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("flags of every command"), columns(flagRows(flags, isGlobal), s.width))
	fmt.Fprintf(&b, "\n%s\n  %s\n", s.heading("for example"), strings.TrimSpace("budstick "+c.name+" "+c.example))
	return b.String()
}

// flagRows lists flags with what they do.
func flagRows(flags *pflag.FlagSet, shown func(string) bool) [][2]string {
	var rows [][2]string
	flags.VisitAll(func(f *pflag.Flag) {
		if !shown(f.Name) {
			return
		}
		value, usage := pflag.UnquoteUsage(f)
		name := "--" + f.Name
		if f.Shorthand != "" {
			name = "-" + f.Shorthand + ", " + name
		}
		if f.Value.Type() != "bool" {
			name += " " + value
			if f.DefValue != "" {
				usage += " (normally " + f.DefValue + ")"
			}
		}
		rows = append(rows, [2]string{name, usage})
	})
	return rows
}

// columns lays out names with what is said of them, the names indented by two.
func columns(rows [][2]string, width int) string {
	const between = 2
	longest := 0
	for _, row := range rows {
		longest = max(longest, len(row[0]))
	}
	longest = min(longest, width/3)
	var b strings.Builder
	for _, row := range rows {
		at := between + longest + between
		if len(row[0]) > longest {
			fmt.Fprintf(&b, "  %s\n%s%s\n", row[0], strings.Repeat(" ", at), wrapped(row[1], at, width))
			continue
		}
		fmt.Fprintf(&b, "  %-*s%s%s\n", longest, row[0], strings.Repeat(" ", between), wrapped(row[1], at, width))
	}
	return b.String()
}

// wrapped breaks text at blanks into lines that fit between a margin and a
// width. The first line is not indented.
func wrapped(text string, margin, width int) string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(text) {
		switch {
		case line == "":
			line = word
		case margin+uniseg.StringWidth(line+" "+word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return strings.Join(append(lines, line), "\n"+strings.Repeat(" ", margin))
}

// version is that of the module as it was built, with the commit where that is
// known.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "budstick"
	}
	i := slices.IndexFunc(info.Settings, func(s debug.BuildSetting) bool { return s.Key == "vcs.revision" })
	if info.Main.Version == "(devel)" && i >= 0 {
		return "budstick " + info.Settings[i].Value
	}
	return "budstick " + info.Main.Version
}
