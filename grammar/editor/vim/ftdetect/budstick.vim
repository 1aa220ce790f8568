autocmd BufNewFile,BufRead *.bud set filetype=budstick
