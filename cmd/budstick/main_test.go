package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write anew what scripts and pages expect")

// The test binary is the program, when it is called by its name.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"budstick": main, "unlucky": unlucky})
}

// TestScripts runs the program as a user types it. Besides the usual commands
// of testscript a script has
//
//	run STATUS ARGS…              run the program; it must end with the status
//	put FILE TEXT [TIMES]         add text, with Go's escapes, to a file
//	plain FILE                    the file holds no control character but LF
//
// and the condition [root], under which nothing is unreadable.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join(root, "testdata", "cli"),
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			for _, name := range []string{"NO_COLOR", "FORCE_COLOR", "LANG", "LC_ALL", "LC_NUMERIC"} {
				e.Setenv(name, "")
			}
			return nil
		},
		Condition: func(c string) (bool, error) {
			if c == "root" {
				return os.Geteuid() == 0, nil
			}
			return false, errors.New("unknown condition")
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"run": runProgram, "put": put, "plain": isPlain,
		},
	})
}

func runProgram(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: run STATUS ARGS…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	err = ts.Exec("budstick", args[1:]...)
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("status %d, want %d", got, want)
	}
}

func put(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: put FILE TEXT [TIMES]")
	}
	text, err := strconv.Unquote(`"` + strings.ReplaceAll(args[1], `"`, `\"`) + `"`)
	ts.Check(err)
	times := 1
	if len(args) > 2 {
		times, err = strconv.Atoi(args[2])
		ts.Check(err)
	}
	f, err := os.OpenFile(ts.MkAbs(args[0]), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	ts.Check(err)
	_, err = f.WriteString(strings.Repeat(text, times))
	ts.Check(err)
	ts.Check(f.Close())
}

func isPlain(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: plain FILE")
	}
	for i, r := range ts.ReadFile(args[0]) {
		if r < 0x20 && r != '\n' || r >= 0x7f && r < 0xa0 || r >= 0x202a && r <= 0x202e {
			ts.Fatalf("%s holds %q at byte %d", args[0], r, i)
		}
	}
}
