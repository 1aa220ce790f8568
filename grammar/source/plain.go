package source

import "bytes"

// Plain is the text of s as seals hash it and as versions of a file are
// compared: CR LF is written LF, and there is no byte-order mark. A CR that
// stands anywhere else stays. It is a copy.
//
// Spans that meet at the beginning of a line may be taken one by one: their
// plain texts, put together, are the plain text of the whole.
func (f *File) Plain(s Span) []byte {
	s.Start = min(max(s.Start, f.Start()), s.End)
	return bytes.ReplaceAll(f.Bytes[s.Start:s.End], []byte("\r\n"), []byte("\n"))
}
