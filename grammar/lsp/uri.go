package lsp

import (
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
)

// drive is how a path begins within a URI on Windows.
var drive = regexp.MustCompile(`^/[A-Za-z]:`)

// pathOfURI is the path of a file, cleaned, or what the URI is where it is of
// no file. One file has one path, in whatever way its URI was written.
func pathOfURI(uri string) string {
	u, err := url.Parse(uri)
	if err != nil || u.Scheme != "file" {
		return uri
	}
	path := u.Path
	switch {
	case u.Host != "" && u.Host != "localhost":
		path = "//" + u.Host + path
	case drive.MatchString(path):
		path = strings.ToUpper(path[1:2]) + path[2:]
	}
	return filepath.Clean(filepath.FromSlash(path))
}

// uriOfPath is the inverse for files.
func uriOfPath(path string) string {
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") && filepath.IsAbs(path) {
		slashed = "/" + slashed
	}
	if !strings.HasPrefix(slashed, "/") {
		return path
	}
	return (&url.URL{Scheme: "file", Path: slashed}).String()
}
