if exists("b:did_ftplugin")
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:# commentstring=#\ %s
setlocal expandtab shiftwidth=2 softtabstop=2
" gq lays out what it is given; :make finds what is wrong and goes there.
setlocal formatexpr=budstick#format()
setlocal makeprg=budstick\ lint\ --as\ gnu\ --quiet
setlocal errorformat=%f:%l.%c-%*[0-9.]:\ %t%*[a-z]:\ %m,%f:%l:%c:\ %t%*[a-z]:\ %m,%-G%.%#

let b:undo_ftplugin = "setlocal comments< commentstring< expandtab< shiftwidth< softtabstop< formatexpr< makeprg< errorformat<"
