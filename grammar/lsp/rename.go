package lsp

import (
	"context"
	"strings"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// A name is changed wherever it stands, or nowhere: what is sealed or committed
// is never written anew, so a name that stands there stays as it is.

type renameParams struct {
	documentPosition
	NewName string `json:"newName"`
}

// prepareRename says whether the name at the cursor can be changed, and shows
// it as it is now.
func prepareRename(ctx context.Context, d document, p documentPosition) (any, error) {
	r, m, t, err := d.aim(ctx, p.Position)
	if err != nil || r == nil {
		return nil, err
	}
	if _, err := d.renamable(r, t); err != nil {
		return nil, err
	}
	text := string(d.bytes(m.span.Start, m.span.End))
	if name, quoted := unquoted(text); quoted {
		text = name
	}
	return object{"range": d.rangeOf(m.span, d.encoding), "placeholder": text}, nil
}

func unquoted(text string) (string, bool) {
	toks := syntax.Lex([]byte(text), source.Span{End: int32(len(text))}, nil)
	if len(toks) == 1 && toks[0].Kind == syntax.Quoted {
		return syntax.Unquote(text), true
	}
	return text, false
}

func rename(ctx context.Context, d document, p renameParams) (any, error) {
	r, _, t, err := d.aim(ctx, p.Position)
	switch {
	case err != nil:
		return nil, err
	case r == nil:
		return nil, failed("there is no name here that could be changed")
	}
	hits, err := d.renamable(r, t)
	if err != nil {
		return nil, err
	}
	written, err := r.newName(t, p.NewName)
	if err != nil {
		return nil, err
	}
	edits := edits{}
	for _, h := range hits {
		edits.add(h.file, textEdit{d.locate(h).Range, written})
	}
	return d.workspaceEdit(edits), nil
}

// newName is how a name is written that a target may get.
func (r *replay) newName(t target, name string) (string, error) {
	written := syntax.Spell(name)
	toks := syntax.Lex([]byte(written), source.Span{End: int32(len(written))}, nil)
	if strings.TrimSpace(name) == "" || len(toks) != 1 || toks[0].Span.Len() != len(written) || toks[0].Kind == syntax.Bad {
		return "", failed("%q is no name; a name stands on one line and is not empty", name)
	}
	key := spelling.Fold(name)
	if key == t.key || t.in&named == 0 {
		return written, nil
	}
	for one := lots; one&named != 0; one <<= 1 {
		if _, thing := r.Thing(key); thing || r.known(one, key) {
			return "", failed("%s is taken already; a name means one thing for good", written)
		}
	}
	return written, nil
}

// renamable gathers the places where a name stands, if all of them may still be
// changed.
func (d document) renamable(r *replay, t target) ([]hit, error) {
	if t.in&(rules|limits) != 0 {
		return nil, failed("this is a word of the language and no name of yours")
	}
	var hits []hit
	made := false
	for h := range r.find(t, d.journal.files...) {
		if h.fixed {
			return nil, failed("%s begins or ends a run of trees, whose names hang together", d.nameAt(h))
		}
		made = made || h.made
		hits = append(hits, h)
	}
	if len(hits) == 0 {
		return nil, failed("there is no name here that could be changed")
	}
	if thing := r.thing(t); thing != nil && !made {
		return nil, failed("%s is one of a run of trees, whose names hang together", d.nameAt(hits[0]))
	}
	for _, f := range d.journal.files {
		if err := d.unread(f, t); err != nil {
			return nil, err
		}
	}
	return hits, d.recent(hits, t)
}

func (d document) nameAt(h hit) string { return h.block.file.Text(h.span) }

// unread refuses where an entry that can't be read may hold the name.
func (d document) unread(f *file, t target) error {
	for i, b := range f.blocks {
		for _, broken := range b.page.Broken {
			for _, name := range broken.Names {
				if spelling.Fold(name) == t.key {
					return failed("line %d of %s can't be read and may mean the same name; mend it first", f.lines[i]+broken.Line, f.path)
				}
			}
		}
	}
	return nil
}

// recent refuses where the name stands in what is sealed or committed.
func (d document) recent(hits []hit, t target) error {
	asked := map[*file]bool{}
	for _, h := range hits {
		if at := h.start + h.span.Start; at < h.file.sealedTo() {
			return failed("%s stands on line %d of %s, which is sealed, and what is sealed is not written anew; the name stays",
				d.nameAt(h), h.file.lineAt(at), h.file.path)
		}
		if asked[h.file] {
			continue
		}
		asked[h.file] = true
		if line, err := d.committedAt(h.file, t); err != nil {
			return failed("whether %s is committed can't be told, so it stays: %v", d.nameAt(h), err)
		} else if line > 0 {
			return failed("%s stands on line %d of %s as it was committed, and the past is not written anew; the name stays",
				d.nameAt(h), line, h.file.path)
		}
	}
	return nil
}

// committedAt is the line of the committed file on which a name stands, or 0.
func (d document) committedAt(f *file, t target) (int, error) {
	was, err := d.Committed(f.path)
	if was == nil || err != nil {
		return 0, err
	}
	page := entry.Read(was)
	for i := range page.Entries {
		for _, m := range mentionsIn(&page.Entries[i]) {
			if m.key == t.key && m.of&t.in != 0 {
				return was.Line(m.span.Start), nil
			}
		}
	}
	return 0, nil
}

// sealedTo is where the line of the last seal begins, or 0.
func (t *text) sealedTo() int32 {
	for i := len(t.blocks) - 1; i >= 0; i-- {
		list := t.blocks[i].page.Entries
		for j := len(list) - 1; j >= 0; j-- {
			if _, ok := list[j].Effect.(*fact.Seal); ok {
				return t.starts[i] + list[j].Span.Start
			}
		}
	}
	return 0
}

// lineAt is the line of a byte, from 1, as journals count lines.
func (t *text) lineAt(off int32) int32 {
	i := t.at(off)
	return t.lines[i] + int32(t.blocks[i].file.Line(off-t.starts[i]))
}

// edits are changes to files.
type edits map[*file][]textEdit

func (e edits) add(f *file, one textEdit) { e[f] = append(e[f], one) }

// workspaceEdit puts changes in the form that the editor can take: with the
// versions that they are for, if it can.
func (s *server) workspaceEdit(e edits) workspaceEdit {
	out := workspaceEdit{}
	if !s.client.Workspace.WorkspaceEdit.DocumentChanges {
		out.Changes = map[string][]textEdit{}
	}
	for f, list := range e {
		if out.Changes != nil {
			out.Changes[f.uri] = list
			continue
		}
		of := optionalVersion{URI: f.uri}
		if f.open {
			of.Version = &f.version
		}
		out.DocumentChanges = append(out.DocumentChanges, documentEdit{of, list})
	}
	return out
}
