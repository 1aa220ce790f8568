" Colours of budstick journals. Made from the grammar of the entries; see
" grammar/editor in the project.
if exists("b:current_syntax")
  finish
endif

syntax case ignore
" Names hold letters, digits and _ - . /
syntax iskeyword @,48-57,_,45-47

syntax match budstickDay /^\d\{4}-\d\d-\d\d[^#]*/
syntax match budstickComment /#.*$/ contains=@Spell
syntax match budstickNumber contained /\<\d\+\%(\.\d\+\)\?\ze\%(\>\|\%({{join .Units "\\|"}}\|%\)\>\)/
syntax match budstickNumber contained /\<\d\+\%(\.\d\+\)\?\ze%/
syntax match budstickNumber contained /\<\d\+\zeh\d\+min\>\|\%(\<\d\+h\)\@<=\d\+\zemin\>/
syntax match budstickUnit contained /\%(\<\d\+\)\@<=h\ze\d\+min\>\|\%(\<\d\+h\d\+\)\@<=min\>/
syntax match budstickDate contained /\<\d\{4}-\d\d\%(-\d\d\)\?\>/
syntax match budstickUnit contained /\%(\<\d\+\%(\.\d\+\)\?\s*\|\<per\s\+\)\@<=\%({{join .Units "\\|"}}\)\>/
syntax match budstickUnit contained /\%(\d\s*\)\@<=%/
syntax match budstickUnit contained /\C\%(\<\d\+\%(\.\d\+\)\?\s*\)\@<=\u\{3}\>/
syntax match budstickText contained /"\%([^"\\]\|\\.\)*"\|[“”„‟″]\%([^"“”„‟″\\]\|\\.\)*["“”„‟″]/ contains=@Spell
syntax cluster budstickParts contains=budstickComment,budstickNumber,budstickDate,budstickUnit,budstickText

" Each verb has words of its own; any of them may be a name elsewhere.
{{- range .Verbs}}

syntax region budstickEntry_{{.Name}} matchgroup=budstickVerb start=/^{{.Name}}\>/ end=/^\ze[^#[:blank:]]/ keepend contains=@budstickParts,budstickWord_{{.Name}}
{{- if .Words}}
syntax keyword budstickWord_{{.Name}} contained {{join .Words " "}}
highlight default link budstickWord_{{.Name}} budstickWord
{{- end}}
{{- end}}

syntax sync minlines=50

highlight default link budstickDay Title
highlight default link budstickVerb Statement
highlight default link budstickWord Keyword
highlight default link budstickComment Comment
highlight default link budstickText String
highlight default link budstickNumber Number
highlight default link budstickDate Constant
highlight default link budstickUnit Type

let b:current_syntax = "budstick"
