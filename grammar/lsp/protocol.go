package lsp

// The parts of LSP 3.17 that are spoken here, by the names of its
// specification.

type position struct {
	Line      int `json:"line"`
	Character int `json:"character"`
}

func (p position) before(q position) bool {
	return p.Line < q.Line || p.Line == q.Line && p.Character < q.Character
}

// span is Range in the specification.
type span struct {
	Start position `json:"start"`
	End   position `json:"end"`
}

type location struct {
	URI   string `json:"uri"`
	Range span   `json:"range"`
}

type textDocument struct {
	URI string `json:"uri"`
}

type versionedDocument struct {
	URI     string `json:"uri"`
	Version int    `json:"version"`
}

// documentPosition is the beginning of the parameters of most requests.
type documentPosition struct {
	TextDocument textDocument `json:"textDocument"`
	Position     position     `json:"position"`
}

type documentRange struct {
	TextDocument textDocument `json:"textDocument"`
	Range        span         `json:"range"`
}

type initializeParams struct {
	RootPath         *string            `json:"rootPath"`
	RootURI          *string            `json:"rootUri"`
	WorkspaceFolders []workspaceFolder  `json:"workspaceFolders"`
	Capabilities     clientCapabilities `json:"capabilities"`
}

type workspaceFolder struct {
	URI string `json:"uri"`
}

// clientCapabilities are those on which an answer depends.
type clientCapabilities struct {
	General struct {
		PositionEncodings []string `json:"positionEncodings"`
	} `json:"general"`
	Workspace struct {
		WorkspaceEdit struct {
			DocumentChanges bool `json:"documentChanges"`
		} `json:"workspaceEdit"`
		DidChangeWatchedFiles struct {
			DynamicRegistration bool `json:"dynamicRegistration"`
		} `json:"didChangeWatchedFiles"`
	} `json:"workspace"`
	TextDocument struct {
		Completion struct {
			CompletionItem struct {
				SnippetSupport bool `json:"snippetSupport"`
			} `json:"completionItem"`
		} `json:"completion"`
		Hover struct {
			ContentFormat []string `json:"contentFormat"`
		} `json:"hover"`
		DocumentSymbol struct {
			HierarchicalDocumentSymbolSupport bool `json:"hierarchicalDocumentSymbolSupport"`
		} `json:"documentSymbol"`
		CodeAction struct {
			CodeActionLiteralSupport *struct{} `json:"codeActionLiteralSupport"`
		} `json:"codeAction"`
		PublishDiagnostics struct {
			RelatedInformation bool `json:"relatedInformation"`
			VersionSupport     bool `json:"versionSupport"`
		} `json:"publishDiagnostics"`
	} `json:"textDocument"`
}

type didOpenParams struct {
	TextDocument struct {
		URI     string `json:"uri"`
		Version int    `json:"version"`
		Text    string `json:"text"`
	} `json:"textDocument"`
}

type didChangeParams struct {
	TextDocument   versionedDocument `json:"textDocument"`
	ContentChanges []contentChange   `json:"contentChanges"`
}

// contentChange is the whole new text where it has no range.
type contentChange struct {
	Range *span   `json:"range"`
	Text  *string `json:"text"`
}

type watchedFilesParams struct {
	Changes []struct {
		URI  string `json:"uri"`
		Type int    `json:"type"`
	} `json:"changes"`
}

// fileDeleted is FileChangeType.Deleted.
const fileDeleted = 3

type foldersParams struct {
	Event struct {
		Added   []workspaceFolder `json:"added"`
		Removed []workspaceFolder `json:"removed"`
	} `json:"event"`
}

type publishParams struct {
	URI         string       `json:"uri"`
	Version     *int         `json:"version,omitempty"`
	Diagnostics []diagnostic `json:"diagnostics"`
}

type diagnostic struct {
	Range    span                `json:"range"`
	Severity int                 `json:"severity"`
	Code     string              `json:"code"`
	Source   string              `json:"source"`
	Message  string              `json:"message"`
	Related  []diagnosticRelated `json:"relatedInformation,omitempty"`
}

type diagnosticRelated struct {
	Location location `json:"location"`
	Message  string   `json:"message"`
}

type textEdit struct {
	Range   span   `json:"range"`
	NewText string `json:"newText"`
}

// workspaceEdit has one of its two members, as the editor can take it.
type workspaceEdit struct {
	Changes         map[string][]textEdit `json:"changes,omitempty"`
	DocumentChanges []documentEdit        `json:"documentChanges,omitempty"`
}

type documentEdit struct {
	TextDocument optionalVersion `json:"textDocument"`
	Edits        []textEdit      `json:"edits"`
}

// optionalVersion has a null version where the file is not open.
type optionalVersion struct {
	URI     string `json:"uri"`
	Version *int   `json:"version"`
}

type markupContent struct {
	Kind  string `json:"kind"`
	Value string `json:"value"`
}

// The error codes of LSP 3.17 that are used beside those of JSON-RPC.
const (
	codeNotInitialized   = -32002
	codeRequestFailed    = -32803
	codeRequestCancelled = -32800
)
