package table

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/text/language"
)

var (
	codes = regexp.MustCompile(`<path class="code"[^>]* d="([^"]*)"`)
	runs  = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`)
	paper = regexp.MustCompile(`<rect class="code-paper"[^>]* width="(\d+)" height="(\d+)"`)
)

// What is drawn is a QR code of ISO/IEC 18004, as far as can be seen without
// reading it: three finder patterns of seven modules, timing patterns between
// them, four light modules all around, and 4v + 17 modules a side.
func TestCodeIsDrawnAsTheStandardHasIt(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSVG(&b, labelSample().Body[0].(Labels), language.Und); err != nil {
		t.Fatal(err)
	}
	found := codes.FindAllStringSubmatch(b.String(), -1)
	if len(found) != 3 || found[0][1] != found[1][1] || found[0][1] != found[2][1] {
		t.Fatalf("%d codes, not three that are alike", len(found))
	}
	side, _ := strconv.Atoi(paper.FindStringSubmatch(b.String())[1])
	size := side - 8
	if size%4 != 1 || size < 21 {
		t.Fatalf("%d modules a side", size)
	}
	dark := map[[2]int]bool{}
	for _, run := range runs.FindAllStringSubmatch(found[0][1], -1) {
		var n [4]int
		for i := range n {
			n[i], _ = strconv.Atoi(run[i+1])
		}
		if n[2] != n[3] {
			t.Errorf("run %v is no box", run[0])
		}
		for x := n[0]; x < n[0]+n[2]; x++ {
			if dark[[2]int{x, n[1]}] {
				t.Errorf("module %d, %d is drawn twice", x, n[1])
			}
			dark[[2]int{x, n[1]}] = true
		}
	}
	for at := range dark {
		if at[0] < 4 || at[1] < 4 || at[0] >= size+4 || at[1] >= size+4 {
			t.Errorf("module %v is in the quiet zone", at)
		}
	}
	for _, corner := range [][2]int{{4, 4}, {size - 3, 4}, {4, size - 3}} {
		for y := range 7 {
			for x := range 7 {
				ring := max(max(x, 6-x), max(y, 6-y)) // 6 outside, 5, then the core
				if want := ring != 5; dark[[2]int{corner[0] + x, corner[1] + y}] != want {
					t.Errorf("finder at %v: module %d, %d", corner, x, y)
				}
			}
		}
	}
	for i := 8; i < size-8; i++ {
		if dark[[2]int{i + 4, 10}] != (i%2 == 0) || dark[[2]int{10, i + 4}] != (i%2 == 0) {
			t.Errorf("timing module %d", i)
		}
	}
}

// A reader that is not ours reads the code that is drawn, and finds in it what it is
// to say: zbarimg, from the package zbar-tools of Debian. It is asked for by name
// only, and the test is passed over where it is not installed.
func TestCodesAreRead(t *testing.T) {
	reader, err := exec.LookPath("zbarimg")
	if err != nil && os.Getenv("CI") != "" {
		t.Fatal("there is no zbarimg")
	} else if err != nil {
		t.Skip("there is no zbarimg")
	}
	for i, text := range []string{
		labelSample().Body[0].(Labels).Code,
		"A Citrus ×limon\nB GR-0417/5\nC Möhren-Ä7\nD GR",
		"A +Crataegomespilus dardarii\nB ES-KH-0417\nC \"tray; 7\" <b>&amp;\nD ES",
		"C 7",
		strings.Repeat("A Eriobotrya japonica and more of it ", 8),
	} {
		p := labelSample().Body[0].(Labels)
		p.Code, p.Count = text, 1
		var b bytes.Buffer
		if err := WriteSVG(&b, p, language.Und); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), fmt.Sprintf("%d.png", i))
		if err := os.WriteFile(file, photographed(t, b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		got, err := exec.Command(reader, "-q", "--raw", "--oneshot", "-Sdisable", "-Sqrcode.enable", file).Output()
		if err != nil || strings.TrimSuffix(string(got), "\n") != text {
			t.Errorf("%q was read as %q: %v", text, got, err)
		}
	}
}

// photographed is a picture of the code on the first label of a drawing, four dots
// a module, taken from the drawing.
func photographed(t *testing.T, drawing string) []byte {
	t.Helper()
	const dots = 4
	side, _ := strconv.Atoi(paper.FindStringSubmatch(drawing)[1])
	picture := image.NewGray(image.Rect(0, 0, side*dots, side*dots))
	for i := range picture.Pix {
		picture.Pix[i] = 0xff
	}
	for _, run := range runs.FindAllStringSubmatch(codes.FindStringSubmatch(drawing)[1], -1) {
		x, _ := strconv.Atoi(run[1])
		y, _ := strconv.Atoi(run[2])
		wide, _ := strconv.Atoi(run[3])
		for v := y * dots; v < (y+1)*dots; v++ {
			for u := x * dots; u < (x+wide)*dots; u++ {
				picture.SetGray(u, v, color.Gray{})
			}
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, picture); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Labels grow with their words, and stay apart.
func TestLabelsHoldTheirWords(t *testing.T) {
	p := labelSample().Body[0].(Labels)
	p.Heading, p.Count = strings.Repeat("Amberlight and ", 20), LabelsOnASheet
	var b bytes.Buffer
	if err := WriteSVG(&b, p, language.Und); err != nil {
		t.Fatal(err)
	}
	cards := regexp.MustCompile(`<rect class="card"[^>]* y="([0-9.]+)" width="280" height="([0-9.]+)"`).FindAllStringSubmatch(b.String(), -1)
	if len(cards) != LabelsOnASheet {
		t.Fatalf("%d labels", len(cards))
	}
	texts := regexp.MustCompile(`<text[^>]* y="([0-9.]+)"[^>]*>Amberlight and`).FindAllStringSubmatch(b.String(), -1)
	lines := len(texts) / LabelsOnASheet
	first, second := cards[0], cards[2] // below one another
	top, _ := strconv.ParseFloat(first[1], 64)
	high, _ := strconv.ParseFloat(first[2], 64)
	next, _ := strconv.ParseFloat(second[1], 64)
	last, _ := strconv.ParseFloat(texts[lines-1][1], 64)
	if fmt.Sprintf("%.1f", top+high) != fmt.Sprintf("%.1f", next) || last > top+high {
		t.Errorf("label from %v, %v high, next at %v, words down to %v", top, high, next, last)
	}
}

func TestLabelsThatCannotBeAreRefused(t *testing.T) {
	for _, c := range []struct {
		count int
		code  string
	}{{0, "C AM26"}, {LabelsOnASheet + 1, "C AM26"}, {1, strings.Repeat("long ", 1000)}} {
		p := labelSample().Body[0].(Labels)
		p.Count, p.Code = c.count, c.code
		if err := WriteSVG(&bytes.Buffer{}, p, language.Und); err == nil {
			t.Errorf("%d labels with a code of %d bytes were drawn", c.count, len(c.code))
		}
	}
}
