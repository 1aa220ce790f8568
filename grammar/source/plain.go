package source

import (
	"bytes"
	"crypto/sha256"
	"fmt"
)

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

// Digest is the SHA-256 of all that stands before off, as Plain has it, in
// hexadecimal: what a seal at off says.
func (f *File) Digest(off int32) string {
	return fmt.Sprintf("%x", sha256.Sum256(f.Plain(Span{0, off})))
}
