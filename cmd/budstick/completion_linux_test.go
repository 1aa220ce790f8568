package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// A shellRun is how a shell is started on a terminal, and made to show its
// command line when control-T is typed.
type shellRun struct {
	name, setup string
	args        []string
}

var shellRuns = []shellRun{
	{"bash", `source <(budstick completion bash); bind 'set bell-style none'; bind 'set completion-query-items 0'; bind -x '"\C-t":printf "<%s>\n" "$READLINE_LINE"'; echo ready`,
		[]string{"--norc", "--noprofile", "-i"}},
	{"zsh", `autoload -Uz compinit; compinit -u -D; source <(budstick completion zsh); show() { print -r -- "<$BUFFER>" }; zle -N show; bindkey '^t' show; setopt no_list_beep no_auto_menu; echo ready`,
		[]string{"-f", "-i"}},
}

// Lines are completed by the shells themselves, at a terminal, in the example
// farm.
func TestShellsComplete(t *testing.T) {
	lines := []struct{ typed, want string }{
		{"budstick expl\t", "budstick explain "},
		{"budstick explain old-woo\t", "budstick explain old-wood"},
		{"budstick take --mother M1\t", "budstick take --mother M1"}, // M10 or M12
		{"budstick take --mother M12\t", "budstick take --mother M12 "},
		{"budstick take --variety Amb\t", "budstick take --variety Amberlight "},
		{"budstick take --variety Quin\t", `budstick take --variety Quince\ BA `},
		{"budstick take --variety \"Quin\t", `budstick take --variety "Quince BA" `},
		{"budstick take --variety 'Quin\t", `budstick take --variety 'Quince BA' `},
		{"budstick explain prun\t", "budstick explain prun"}, // no rule, verb or limit
		{"budstick explain plan\t", "budstick explain plant "},
		{"budstick take --by method,ordi\t", "budstick take --by method,ordinal "},
		{"budstick lint --as=sar\t", "budstick lint --as=sarif "},
		{"budstick lint far\t", "budstick lint farm.bud "},
		{"budstick trace M7 season-2024\t", "budstick trace M7 season-2024.bud "},
	}
	for _, sh := range shellRuns {
		t.Run(sh.name, func(t *testing.T) {
			p := startShell(t, sh)
			for _, line := range lines {
				got := p.lineAfter(line.typed)
				if strings.TrimRight(got, " ") != strings.TrimRight(line.want, " ") {
					t.Errorf("%q becomes %q, want %q", line.typed, got, line.want)
				}
			}
		})
	}
}

// fish tells without a terminal what it would offer.
func TestFishCompletes(t *testing.T) {
	fish, err := exec.LookPath("fish")
	if err != nil {
		t.Skip("fish is not installed")
	}
	tests := []struct{ line, want string }{
		{"budstick expl", "explain"},
		{"budstick gua", "guard"},
		{"budstick take --mother M1", "M10 M12"},
		{"budstick take --variety Quin", "Quince BA"},
		{`budstick take --variety "Quin`, "Quince BA"},
		{"budstick take --by method,ordi", "method,ordinal"},
		{"budstick lint --as=sar", "--as=sarif"},
		{"budstick lint season-2024", "season-2024.bud"},
	}
	for _, test := range tests {
		c := exec.Command(fish, "--no-config", "-c", "budstick completion fish | source; complete -C $argv[1]", test.line)
		c.Dir = filepath.Join(root, "examples", "kestrel-hollow")
		c.Env = append(os.Environ(), "HOME="+t.TempDir())
		out, err := c.CombinedOutput()
		if err != nil {
			t.Fatalf("fish: %v\n%s", err, out)
		}
		var got []string
		for line := range strings.Lines(string(out)) {
			word, _, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "\t")
			got = append(got, word)
		}
		if all := strings.Join(got, " "); all != test.want {
			t.Errorf("%q is offered %q, want %q", test.line, all, test.want)
		}
	}
}

// A person is one end of a terminal that a shell runs on.
type person struct {
	t     *testing.T
	types io.Writer
	shown chan string
}

func startShell(t *testing.T, sh shellRun) *person {
	t.Helper()
	path, err := exec.LookPath(sh.name)
	if err != nil {
		t.Skip(sh.name + " is not installed")
	}
	us, tty := openPair(t, 200)
	c := exec.Command(path, sh.args...)
	c.Dir = filepath.Join(root, "examples", "kestrel-hollow")
	c.Env = append(os.Environ(), "HOME="+t.TempDir(), "TERM=dumb", "PS1=$ ")
	c.Stdin, c.Stdout, c.Stderr = tty, tty, tty
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	tty.Close()
	t.Cleanup(func() { c.Process.Kill(); _ = c.Wait() })
	p := &person{t, us, make(chan string, 1000)}
	go func() {
		b := make([]byte, 4096)
		for {
			n, err := us.Read(b)
			if err != nil {
				close(p.shown)
				return
			}
			p.shown <- string(b[:n])
		}
	}()
	io.WriteString(p.types, sh.setup+"\n")
	p.wait(regexp.MustCompile(`(?m)^ready\r?$`))
	return p
}

// wait reads what is shown until a pattern is there, and returns its last group.
func (p *person) wait(pattern *regexp.Regexp) string {
	p.t.Helper()
	shown := ""
	late := time.After(60 * time.Second)
	for {
		select {
		case more, ok := <-p.shown:
			shown += more
			if m := pattern.FindStringSubmatch(shown); m != nil {
				return m[len(m)-1]
			}
			if !ok {
				p.t.Fatalf("the shell ended: %q", shown)
			}
		case <-late:
			p.t.Fatalf("nothing like %s in %q", pattern, shown)
		}
	}
}

// lineAfter types on an empty line and returns what the line is then.
func (p *person) lineAfter(typed string) string {
	p.t.Helper()
	const show, clear = "\x14", "\x15"
	io.WriteString(p.types, typed+show)
	line := p.wait(regexp.MustCompile(`<([^>]*)>\r?\n`))
	io.WriteString(p.types, clear)
	return line
}
