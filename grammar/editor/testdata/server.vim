" Opens $JOURNAL and writes what the language server finds in it.
execute 'set runtimepath^=' . fnameescape($VIM_FILES)
filetype plugin on
runtime plugin/budstick.lua
execute 'edit' fnameescape($JOURNAL)
lua << LUA
vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end)
local out = {}
for _, d in ipairs(vim.diagnostic.get(0)) do
  table.insert(out, string.format("%d:%d %s", d.lnum + 1, d.col + 1, d.message))
end
table.insert(out, "servers: " .. #vim.lsp.get_active_clients())
table.insert(out, "completes by " .. vim.bo.omnifunc)
table.insert(out, "finds names by " .. vim.bo.tagfunc)
vim.cmd("edit " .. vim.fn.fnameescape(vim.env.JOURNAL .. ".more.bud"))
vim.wait(200)
table.insert(out, "servers: " .. #vim.lsp.get_active_clients())
vim.fn.writefile(out, vim.env.TOLD)
LUA
qall!
