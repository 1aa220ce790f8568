package editor

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// programs is a folder that holds the program, once a test has asked for it.
var programs string

func TestMain(m *testing.M) {
	code := m.Run()
	if programs != "" {
		os.RemoveAll(programs)
	}
	os.Exit(code)
}

// buildProgram puts budstick where the programs are that a test starts.
func buildProgram(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("the program is not built in short tests")
	}
	if programs == "" {
		folder, err := os.MkdirTemp("", "budstick")
		if err != nil {
			t.Fatal(err)
		}
		programs = folder
		if out, err := exec.Command("go", "build", "-o", folder, "../../cmd/budstick").CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
	}
	t.Setenv("PATH", programs+string(os.PathListSeparator)+os.Getenv("PATH"))
}

// told runs a script in Vim or Neovim on a journal with one error, and returns
// what it writes.
func told(t *testing.T, program, script string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Skip(program + " is not installed")
	}
	folder := t.TempDir()
	journal := filepath.Join(folder, "a journal.bud")
	if err := os.WriteFile(journal, []byte("cause frost\n\n2026-03-02\nlose 2 of AM26 to frost\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Abs("vim")
	if err != nil {
		t.Fatal(err)
	}
	script, err = filepath.Abs(filepath.Join("testdata", script))
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(path, append(args, "-u", "NONE", "-i", "NONE", "-n", "-S", script)...)
	c.Dir = folder
	c.Env = append(os.Environ(), "VIM_FILES="+files, "JOURNAL="+journal, "TOLD="+filepath.Join(folder, "told"), "HOME="+folder)
	said, err := c.CombinedOutput()
	out, failed := os.ReadFile(filepath.Join(folder, "told"))
	if failed != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	return string(out)
}

// The plugin starts one server for a folder, and its findings are shown.
func TestNeovimStartsTheServer(t *testing.T) {
	buildProgram(t)
	got := told(t, "nvim", "server.vim", "--headless")
	keys := "completes by v:lua.vim.lsp.omnifunc\nfinds names by v:lua.vim.lsp.tagfunc\n"
	if !strings.Contains(got, "4:11 AM26 is not known on 2 March 2026") || !strings.Contains(got, keys) || strings.Count(got, "servers: 1\n") != 2 {
		t.Errorf("Neovim shows\n%s", got)
	}
}

// From Neovim 0.11 on the editor starts the server itself, as lsp/budstick.lua
// says. The editor's own part is stood in for where it is older.
func TestNeovimOfNowStartsTheServer(t *testing.T) {
	buildProgram(t)
	if got, want := told(t, "nvim", "later.vim", "--headless"), "budstick: budstick lsp, for budstick\nautocommands: 0\n"; got != want {
		t.Errorf("Neovim is asked\n%s\nwant\n%s", got, want)
	}
}

// :make finds the place, in Vim and in Neovim.
func TestVimFindsWhatIsWrong(t *testing.T) {
	buildProgram(t)
	for _, program := range [][]string{{"vim", "-N", "-es"}, {"nvim", "--headless"}} {
		t.Run(program[0], func(t *testing.T) {
			got := told(t, program[0], "quickfix.vim", program[1:]...)
			if !strings.Contains(got, "a journal.bud:4:11 e AM26 is not known") || strings.Count(got, "\n") != 2 || !strings.HasSuffix(got, "# %s\n") {
				t.Errorf("it goes to\n%s", got)
			}
		})
	}
}

// gq lays out the entry that it is given, and leaves alone what can't be read:
// a command that fails must not put its complaint in place of the journal.
func TestVimLaysOutEntries(t *testing.T) {
	buildProgram(t)
	for _, program := range [][]string{{"vim", "-N", "-es"}, {"nvim", "--headless"}} {
		t.Run(program[0], func(t *testing.T) {
			got := told(t, program[0], "layout.vim", program[1:]...)
			want := "cause   frost\n2026-03-02\nlose 2 of AM26\n  to frost\nlose 2  of AM 26\nnote \"a  b\"\n"
			if got != want {
				t.Errorf("the journal is\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// Emacs compiles the mode without a warning.
func TestEmacsCompilesTheMode(t *testing.T) {
	emacs, err := exec.LookPath("emacs")
	if err != nil {
		t.Skip("emacs is not installed")
	}
	mode, err := os.ReadFile("emacs/budstick-mode.el")
	if err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(t.TempDir(), "budstick-mode.el")
	if err := os.WriteFile(copied, mode, 0o644); err != nil {
		t.Fatal(err)
	}
	var said bytes.Buffer
	c := exec.Command(emacs, "-Q", "--batch", "--eval", "(setq byte-compile-error-on-warn t)", "-f", "batch-byte-compile", copied)
	c.Stdout, c.Stderr = &said, &said
	if err := c.Run(); err != nil {
		t.Errorf("%v\n%s", err, said.String())
	}
}

// In Emacs an entry begins in the first column, and TAB sets off what goes on
// with it.
func TestEmacsIndents(t *testing.T) {
	emacs, err := exec.LookPath("emacs")
	if err != nil {
		t.Skip("emacs is not installed")
	}
	c := exec.Command(emacs, "-Q", "--batch", "-l", "testdata/indent.el")
	c.Env = append(os.Environ(), "MODE=emacs/budstick-mode.el")
	got, err := c.Output()
	if want := "graft 2\n  worker Ines\nnote\ncause\n  end"; err != nil || string(got) != want {
		t.Errorf("the journal is\n%s\nwant\n%s (%v)", got, want, err)
	}
}
