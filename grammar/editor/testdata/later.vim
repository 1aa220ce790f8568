" Writes what the plugin asks of a Neovim from 0.11 on, which knows lsp/*.lua.
execute 'set runtimepath^=' . fnameescape($VIM_FILES)
lua << LUA
local out = {}
local has = vim.fn.has
vim.fn.has = function(what) return what == "nvim-0.11" and 1 or has(what) end
vim.lsp.enable = function(name)
  local config = dofile(vim.api.nvim_get_runtime_file("lsp/" .. name .. ".lua", false)[1])
  table.insert(out, name .. ": " .. table.concat(config.cmd, " ") .. ", for " .. table.concat(config.filetypes, " "))
end
vim.cmd("runtime plugin/budstick.lua")
table.insert(out, "autocommands: " .. #vim.api.nvim_get_autocmds({ event = "FileType", pattern = "budstick" }))
vim.fn.writefile(out, vim.env.TOLD)
LUA
qall!
