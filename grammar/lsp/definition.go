package lsp

import "context"

// aim is what the cursor names, in the journal replayed.
func (d document) aim(ctx context.Context, p position) (*replay, mention, target, error) {
	c, err := d.cursorAt(p)
	if err != nil {
		return nil, mention{}, target{}, err
	}
	m, ok := c.mention()
	if !ok {
		return nil, m, target{}, nil
	}
	r, err := within(ctx, d.journal.replayed)
	if err != nil {
		return nil, m, target{}, err
	}
	m.span = shifted(m.span, c.start)
	return r, m, r.target(m), nil
}

func (d document) locate(h hit) location {
	return location{h.file.uri, h.file.rangeOf(shifted(h.span, h.start), d.encoding)}
}

// definition is where a name was given: the entry that made or declared what
// has it, or of what lives from its first use, that.
func definition(ctx context.Context, d document, p documentPosition) (any, error) {
	r, _, t, err := d.aim(ctx, p.Position)
	if err != nil || r == nil {
		return nil, err
	}
	var first *hit
	for h := range r.find(t, d.journal.files...) {
		if h.made {
			return d.locate(h), nil
		}
		if first == nil {
			first = &h
		}
	}
	if thing := r.thing(t); thing != nil { // one of a run of trees
		f, at := r.place(thing.Origin())
		return location{f.uri, f.rangeOf(at, d.encoding)}, nil
	}
	if first == nil {
		return nil, nil
	}
	return d.locate(*first), nil
}

type referenceParams struct {
	documentPosition
	Context struct {
		IncludeDeclaration bool `json:"includeDeclaration"`
	} `json:"context"`
}

// references are all places that name the same.
func references(ctx context.Context, d document, p referenceParams) (any, error) {
	r, _, t, err := d.aim(ctx, p.Position)
	if err != nil || r == nil {
		return []location{}, err
	}
	list := []location{}
	for h := range r.find(t, d.journal.files...) {
		if p.Context.IncludeDeclaration || !h.made {
			list = append(list, d.locate(h))
		}
	}
	return list, nil
}

type documentHighlight struct {
	Range span `json:"range"`
	Kind  int  `json:"kind"`
}

// The kinds of highlights.
const (
	highlightRead  = 2
	highlightWrite = 3
)

// highlight shows where a name stands in the file at hand.
func highlight(ctx context.Context, d document, p documentPosition) (any, error) {
	r, _, t, err := d.aim(ctx, p.Position)
	if err != nil || r == nil {
		return []documentHighlight{}, err
	}
	list := []documentHighlight{}
	for h := range r.find(t, d.file) {
		one := documentHighlight{d.locate(h).Range, highlightRead}
		if h.made {
			one.Kind = highlightWrite
		}
		list = append(list, one)
	}
	return list, nil
}
