package lsp

import (
	"cmp"
	"context"
	"reflect"
	"slices"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// Findings are told in two steps. In a large journal the first is told at once:
// what reading finds, with what the last check found elsewhere. The second is
// the whole, as soon as the journal has been replayed and all rules asked, and
// no other keystroke has come.

// newJournal begins to watch over a journal.
func (s *server) newJournal(files []*file) *journal {
	ctx, stop := context.WithCancel(s.ctx)
	j := &journal{
		server: s, snap: newSnapshot(files, &rule.Memory{}), stop: stop,
		wake: make(chan struct{}, 1), check: make(chan struct{}, 1),
	}
	s.tasks.Go(func() { each(ctx, j.wake, j.tell) })
	s.tasks.Go(func() { each(ctx, j.check, func() { j.checkNow(ctx) }) })
	return j
}

// each does something for each signal, until the journal is closed.
func each(ctx context.Context, signal chan struct{}, do func()) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-signal:
			do()
		}
	}
}

// close ends a journal and takes back what was told of it.
func (j *journal) close() {
	j.stop()
	j.snap, j.known = newSnapshot(nil, &rule.Memory{}), verdict{}
	j.server.tasks.Go(j.tell)
}

// state is the journal as it is now, and what is known of it.
func (j *journal) state() (*snapshot, verdict) {
	j.server.mu.Lock()
	defer j.server.mu.Unlock()
	return j.snap, j.known
}

// checkNow checks the present state, unless another comes. A signal may outlive
// its journal: one that was closed has nothing to check.
func (j *journal) checkNow(ctx context.Context) {
	defer j.server.survive(func(string) { j.tell() }) // at least what reading finds
	snap, known := j.state()
	if known.whole || ctx.Err() != nil {
		return
	}
	snap.replayed()
	if now, _ := j.state(); now != snap {
		return
	}
	all := snap.checked()
	j.server.mu.Lock()
	if j.snap == snap {
		j.known = all
	}
	j.server.mu.Unlock()
	j.tell()
}

// sent is what was published of a file last, and for whom: a file may have gone
// to another journal meanwhile, or been closed and opened again.
type sent struct {
	by      *journal
	opening int
	publishParams
}

// tell publishes what is known of each open file, where that is not what was
// published last, and takes back what this journal published of a file that it
// has not open any more.
func (j *journal) tell() {
	s := j.server
	defer s.survive(func(string) {})
	s.telling.Lock()
	defer s.telling.Unlock()
	snap, known := j.state()
	open := map[string]bool{}
	for _, f := range snap.files {
		if f.open {
			open[f.path] = true
			s.publish(f.path, sent{j, f.opening, s.diagnosticsOf(snap, f, known.found[f.path])})
		}
	}
	for path, was := range s.sent {
		if was.by == j && !open[path] {
			s.wire.notify("textDocument/publishDiagnostics", publishParams{URI: was.URI, Diagnostics: []diagnostic{}})
			delete(s.sent, path)
		}
	}
	if known.whole {
		s.settled(snap)
	}
}

func (s *server) publish(path string, p sent) {
	if reflect.DeepEqual(s.sent[path].publishParams, p.publishParams) && s.sent[path].by == p.by && s.sent[path].opening == p.opening {
		return
	}
	s.sent[path] = p
	s.wire.notify("textDocument/publishDiagnostics", p.publishParams)
}

// mostShown is how many findings of one file are shown: more than anyone reads
// in an editor, and few enough to be sent at each keystroke.
const mostShown = 2000

// current is what is known of a file: what reading finds now, and what the last
// check found.
func (f *file) current(known []finding.Finding) []finding.Finding {
	return finding.Sort(append(f.readFindings(), known...))
}

// diagnosticsOf puts findings in the words of the protocol. Of more than can be
// shown the gravest are.
func (s *server) diagnosticsOf(snap *snapshot, f *file, known []finding.Finding) publishParams {
	list := f.current(known)
	if len(list) > mostShown {
		slices.SortStableFunc(list, func(a, b finding.Finding) int { return cmp.Compare(b.Severity, a.Severity) })
		list = finding.Sort(list[:mostShown])
	}
	p := publishParams{URI: f.uri, Diagnostics: make([]diagnostic, len(list))}
	if s.client.TextDocument.PublishDiagnostics.VersionSupport {
		p.Version = &f.version
	}
	for i, one := range list {
		p.Diagnostics[i] = s.diagnosticOf(snap, f.text, one)
	}
	return p
}

// severities are those of the protocol: error, warning, information. Its own
// hint is so faint in most editors that nobody sees it.
var severities = map[finding.Severity]int{finding.Error: 1, finding.Warning: 2, finding.Hint: 3}

func (s *server) diagnosticOf(snap *snapshot, t *text, f finding.Finding) diagnostic {
	d := diagnostic{
		Range: t.rangeOf(f.Span, s.encoding), Severity: severities[f.Severity],
		Code: f.Rule, Source: "budstick", Message: f.Message,
	}
	if !s.client.TextDocument.PublishDiagnostics.RelatedInformation {
		return d
	}
	for _, r := range f.Related {
		if at, ok := s.locationOf(snap, r.File, r.Span); ok {
			d.Related = append(d.Related, diagnosticRelated{at, r.Message})
		}
	}
	return d
}

// locationOf is a span of a whole file as the protocol names it.
func (s *server) locationOf(snap *snapshot, f *source.File, at source.Span) (location, bool) {
	of := snap.file(f.Path)
	if of == nil {
		return location{}, false
	}
	return location{of.uri, of.rangeOf(at, s.encoding)}, true
}
