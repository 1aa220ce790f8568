" Lays out the entries on the lines that gq is given. What can't be read stays as
" it is, and so does all else.
function! budstick#format() abort
  if mode() =~# '[iR]'
    return 1 " a long line is broken while one writes: the editor's own work
  endif
  let last = v:lnum + v:count - 1
  let name = expand('%:t') == '' ? 'here' : expand('%:t')
  let command = 'budstick format --lines ' . v:lnum . '-' . last . ' --stdin-name ' . shellescape(name) . ' -'
  let text = systemlist(command, getline(1, '$'))
  if v:shell_error
    echohl ErrorMsg
    echomsg get(text, 0, 'budstick format ended with ' . v:shell_error)
    echohl None
    return 0
  endif
  for i in range(len(text))
    if getline(i + 1) !=# text[i]
      call setline(i + 1, text[i])
    endif
  endfor
  return 0
endfunction
