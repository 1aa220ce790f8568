-- How Neovim starts the language server; plugin/budstick.lua has it started.
return {
  cmd = { "budstick", "lsp" },
  filetypes = { "budstick" },
  root_markers = { ".git" },
}
