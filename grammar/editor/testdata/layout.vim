" Has gq lay out entries of $JOURNAL and writes what becomes of it.
set nocompatible
execute 'set runtimepath^=' . fnameescape($VIM_FILES)
filetype plugin on
execute 'edit' fnameescape($JOURNAL)
call setline(1, ['cause   frost', '2026-03-02', 'lose  2 of AM26', '       to frost', 'lose 2  of AM 26', 'note  "a  b"'])
normal! 4Ggqq
silent! normal! 5Ggqq
silent! normal! gggqG
normal! 6Ggqq
call writefile(getline(1, '$'), $TOLD)
qall!
