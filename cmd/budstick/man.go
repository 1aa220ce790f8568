package main

import (
	"fmt"
	"runtime/debug"
	"strings"
	"unicode/utf8"

	"github.com/spf13/pflag"
)

// manCommand is made when it is asked for, since it lists the commands and is
// one itself.
func manCommand() *command {
	return &command{
		name:    "man",
		summary: "print the manual page",
		usage:   "",
		long: `Prints the page in the language of man(7), made of what --help of each command says. To read it: budstick man | man -l -

To have it at hand, write it where man looks for it, such as ~/.local/share/man/man1/budstick.1`,
		setup: func(*pflag.FlagSet) action {
			return func(t *terminal, args []string) (status, error) {
				if len(args) > 0 {
					return statusCannot, usageError{"there is one page for all commands; leave out " + args[0], "budstick man --help"}
				}
				return statusDone, t.data.print(manPage(commands(), builtOn()))
			}
		},
	}
}

// aboutEnvironment says which variables of the environment count.
var aboutEnvironment = [][2]string{
	{"NO_COLOR", "where it is not empty, colours are left out"},
	{"FORCE_COLOR", "where it is not empty, and NO_COLOR is, colours are used wherever text goes"},
	{"TERM", "a terminal called dumb gets no colours"},
	{"PAGER", "the program that shows long text on a terminal page by page; without it less or more"},
	{"LC_ALL, LC_NUMERIC, LANG", "the first that is set says how numbers are written on a terminal"},
}

// manPage is the manual page of a day, in the macros of man(7).
func manPage(list []*command, day string) string {
	m := &manual{}
	fmt.Fprintf(m, ".TH BUDSTICK 1 \"%s\" \"%s\"\n", day, version())
	m.macro("SH", "NAME")
	m.text(`budstick \- ` + roff(aboutProgram))
	m.macro("SH", "SYNOPSIS")
	m.text(bold("budstick") + " " + roff("COMMAND [FLAGS] "+filesUsage))
	m.macro("SH", "DESCRIPTION")
	m.paragraphs(aboutFiles)
	m.macro("SH", "COMMANDS")
	for _, c := range list {
		m.command(c)
	}
	flags, _ := newFlags(nil)
	m.macro("SH", "FLAGS OF EVERY COMMAND")
	m.rows(flagRows(flags, isGlobal))
	m.macro("SH", "EXIT STATUS")
	m.rows(aboutStatus)
	m.macro("SH", "ENVIRONMENT")
	m.rows(aboutEnvironment)
	return m.String()
}

// A manual is a page in the making.
type manual struct{ strings.Builder }

// command writes what the help of a command says.
func (m *manual) command(c *command) {
	m.macro("SS", c.name)
	m.text(bold("budstick "+c.name) + " " + roff(c.usage))
	m.macro("PP")
	m.text(roff(strings.ToUpper(c.summary[:1]) + c.summary[1:] + "."))
	m.macro("PP")
	m.paragraphs(strings.TrimSuffix(c.long, aboutFiles))
	flags, _ := newFlags(c)
	c.setup(flags)
	m.rows(flagRows(flags, func(flag string) bool { return !isGlobal(flag) }))
	if c.example != "" {
		m.macro("PP")
		m.text("For example:")
		m.macro("RS")
		m.text(bold("budstick " + c.name + " " + c.example))
		m.macro("RE")
	}
}

// paragraphs writes text with blank lines between its paragraphs.
func (m *manual) paragraphs(text string) {
	for i, p := range strings.Split(strings.TrimSpace(text), "\n\n") {
		if i > 0 {
			m.macro("PP")
		}
		m.text(roff(strings.Join(strings.Fields(p), " ")))
	}
}

// rows writes names with what is said of them.
func (m *manual) rows(rows [][2]string) {
	for _, row := range rows {
		m.macro("TP")
		m.text(bold(row[0]))
		m.text(roff(row[1]))
	}
}

func (m *manual) macro(name string, args ...string) {
	fmt.Fprintf(m, ".%s", name)
	for _, a := range args {
		fmt.Fprintf(m, " \"%s\"", roff(a))
	}
	m.WriteString("\n")
}

// text writes text that is roff already, in lines of which none begins with what
// would be a macro.
func (m *manual) text(s string) {
	for line := range strings.SplitSeq(wrapped(s, 0, 79), "\n") {
		if strings.HasPrefix(line, ".") {
			line = `\&` + line
		}
		m.WriteString(line + "\n")
	}
}

// signs are those that roff would read or write as others: a hyphen is the one
// that can be copied into a command line.
var signs = strings.NewReplacer(`\`, `\e`, "-", `\-`, `"`, `\(dq`, "'", `\(aq`, "`", `\(ga`, "~", `\(ti`, "^", `\(ha`)

// roff writes text so that it is shown as it stands, in ASCII.
func roff(s string) string {
	var b strings.Builder
	for _, r := range signs.Replace(s) {
		if r < utf8.RuneSelf {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\[u%04X]`, r)
		}
	}
	return b.String()
}

func bold(s string) string { return `\fB` + roff(strings.TrimSpace(s)) + `\fR` }

// builtOn is the day of the commit that the program was built from, or nothing
// where that is not known.
func builtOn() string {
	info, _ := debug.ReadBuildInfo()
	if info == nil {
		return ""
	}
	for _, s := range info.Settings {
		if day, _, ok := strings.Cut(s.Value, "T"); ok && s.Key == "vcs.time" {
			return day
		}
	}
	return ""
}
