" Writes the group of each place that $PLACES lists, one a line: line, column.
set nocompatible encoding=utf-8
execute 'set runtimepath^=' . fnameescape(fnamemodify($SYNTAX, ':h:h'))
filetype plugin on
syntax on
execute 'edit' fnameescape($JOURNAL)
let out = []
for place in readfile($PLACES)
  let at = split(place)
  call add(out, synIDattr(synID(at[0], at[1], 1), 'name'))
endfor
call writefile(out, $COLOURS)
qall!
