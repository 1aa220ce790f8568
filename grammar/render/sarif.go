package render

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// The parts of "Static Analysis Results Interchange Format (SARIF) Version
// 2.1.0" (OASIS Standard, 2020) that are used; comments name its sections.
type (
	sarifLog struct {
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct { // 3.14
		Tool       sarifTool     `json:"tool"`
		Artifacts  []sarifFile   `json:"artifacts"`
		Results    []sarifResult `json:"results"`
		ColumnKind string        `json:"columnKind"` // 3.14.17
	}
	sarifFile struct { // 3.24
		Location sarifURI `json:"location"`
	}
	sarifURI struct {
		URI string `json:"uri"`
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct { // 3.19
		Name    string      `json:"name"`
		Version string      `json:"version,omitempty"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifText struct {
		Text string `json:"text"`
	}
	sarifRule struct { // 3.49
		ID      string     `json:"id"`
		Short   sarifText  `json:"shortDescription"`
		Full    *sarifText `json:"fullDescription,omitempty"`
		Default struct {
			Level string `json:"level"`
		} `json:"defaultConfiguration"`
	}
	sarifResult struct { // 3.27
		RuleID       string            `json:"ruleId"`
		RuleIndex    *int              `json:"ruleIndex,omitempty"`
		Level        string            `json:"level"`
		Message      sarifText         `json:"message"`
		Locations    []sarifLocation   `json:"locations"`
		Related      []sarifLocation   `json:"relatedLocations,omitempty"`
		Fingerprints map[string]string `json:"partialFingerprints"`
		Fixes        []sarifFix        `json:"fixes,omitempty"`
	}
	sarifLocation struct { // 3.28
		ID       int        `json:"id,omitempty"`
		Message  *sarifText `json:"message,omitempty"`
		Physical struct {
			Artifact sarifURI    `json:"artifactLocation"`
			Region   sarifRegion `json:"region"`
		} `json:"physicalLocation"`
	}
	sarifRegion struct { // 3.30: the end is the place behind the last character
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn"`
		EndLine     int `json:"endLine"`
		EndColumn   int `json:"endColumn"`
	}
	sarifFix struct { // 3.55
		Description sarifText     `json:"description"`
		Changes     []sarifChange `json:"artifactChanges"`
	}
	sarifChange struct {
		Artifact     sarifURI           `json:"artifactLocation"`
		Replacements []sarifReplacement `json:"replacements"`
	}
	sarifReplacement struct {
		Deleted  sarifRegion `json:"deletedRegion"`
		Inserted sarifText   `json:"insertedContent"`
	}
)

// levels are the severities as 3.27.10 names them.
var levels = map[finding.Severity]string{finding.Error: "error", finding.Warning: "warning", finding.Hint: "note"}

// mostRelated bounds the related places of a result; code hosts refuse files
// with too many.
const mostRelated = 100

func writeSARIF(w io.Writer, r Result, _ Options) error {
	run := sarifRun{
		Tool:       sarifTool{sarifDriver{Name: "budstick", Version: r.Version, Rules: []sarifRule{}}},
		Artifacts:  []sarifFile{},
		Results:    []sarifResult{},
		ColumnKind: "unicodeCodePoints",
	}
	for _, f := range r.Files {
		run.Artifacts = append(run.Artifacts, sarifFile{uriOf(f)})
	}
	index := map[string]int{}
	for i, rule := range r.Rules {
		s := sarifRule{ID: rule.Name, Short: sarifText{rule.Summary}}
		if rule.Why != "" {
			s.Full = &sarifText{rule.Why}
		}
		s.Default.Level = levels[rule.Severity]
		run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, s)
		index[rule.Name] = i
	}
	prints := fingerprints{}
	for f := range r.placed() {
		s := newSARIFResult(f)
		if i, ok := index[f.Rule]; ok {
			s.RuleIndex = &i
		}
		s.Fingerprints = map[string]string{"primaryLocationLineHash": prints.of(f)}
		run.Results = append(run.Results, s)
	}
	log := sarifLog{
		Schema:  "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json",
		Version: "2.1.0",
		Runs:    []sarifRun{run},
	}
	b, err := json.MarshalIndent(log, "", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(escapeSteering(b), '\n'))
	return err
}

func newSARIFResult(f placed) sarifResult {
	s := sarifResult{
		RuleID: f.Rule, Level: levels[f.Severity], Message: sarifText{f.Message},
		Locations: []sarifLocation{newSARIFLocation(f.File, regionOf(f.start, f.end))},
	}
	for i, rel := range f.Related[:min(len(f.Related), mostRelated)] {
		l := newSARIFLocation(rel.File, spanRegion(rel.File, rel.Span))
		l.ID, l.Message = i+1, &sarifText{rel.Message}
		s.Related = append(s.Related, l)
	}
	if m := f.Mend; m != nil {
		s.Fixes = []sarifFix{{
			Description: sarifText{"write instead: " + m.Text},
			Changes: []sarifChange{{uriOf(f.File.Path), []sarifReplacement{
				{spanRegion(f.File, m.Span), sarifText{m.Text}},
			}}},
		}}
	}
	return s
}

func newSARIFLocation(file *source.File, region sarifRegion) sarifLocation {
	var l sarifLocation
	l.Physical.Artifact, l.Physical.Region = uriOf(file.Path), region
	return l
}

func spanRegion(file *source.File, s source.Span) sarifRegion {
	return regionOf(file.Position(s.Start), file.Position(s.End))
}

func regionOf(start, end source.Position) sarifRegion {
	return sarifRegion{start.Line, start.Column, end.Line, end.Column}
}

// uriOf is a path as RFC 3986 has it: relative where the path is, with slashes
// and percent signs.
func uriOf(path string) sarifURI {
	u := url.URL{Path: filepath.ToSlash(path)}
	if filepath.IsAbs(path) {
		u.Scheme, u.Path = "file", "/"+strings.TrimPrefix(u.Path, "/") // a drive's letter is no host
	}
	return sarifURI{u.String()}
}

// fingerprints tell findings apart by what they are about and not by where they
// stand, so that writing on in a journal raises no alert anew: by rule, file
// and the words of the line, and among those alike by their order.
type fingerprints map[string]int

func (seen fingerprints) of(f placed) string {
	line := pieceOf(f.File, source.Span{Start: f.Span.Start, End: f.Span.Start})
	words := strings.Join(strings.Fields(line.before+line.after), " ")
	sum := sha256.Sum256([]byte(f.Rule + "\x00" + f.File.Path + "\x00" + words))
	hash := hex.EncodeToString(sum[:8])
	seen[hash]++
	return hash + ":" + strconv.Itoa(seen[hash])
}
