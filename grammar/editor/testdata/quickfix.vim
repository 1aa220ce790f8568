" Writes where :make goes in $JOURNAL.
set nocompatible
execute 'set runtimepath^=' . fnameescape($VIM_FILES)
filetype plugin on
execute 'edit' fnameescape($JOURNAL)
silent make! %:S
let out = map(getqflist(), 'bufname(v:val.bufnr) . ":" . v:val.lnum . ":" . v:val.col . " " . v:val.type . " " . v:val.text')
call add(out, &commentstring)
call writefile(out, $TOLD)
qall!
