-- Starts the language server for journals.
if vim.fn.executable("budstick") == 0 then
  return
end

if vim.fn.has("nvim-0.11") == 1 then
  vim.lsp.enable("budstick") -- as lsp/budstick.lua says
  return
end

-- Before 0.11 each journal that is opened asks for the server of its folder.
local servers = {}

local function root(file)
  local folder = vim.fn.fnamemodify(file, ":p:h")
  local git = vim.fn.finddir(".git", vim.fn.escape(folder, " ,\\") .. ";")
  return git == "" and folder or vim.fn.fnamemodify(git, ":p:h:h")
end

vim.api.nvim_create_autocmd("FileType", {
  pattern = "budstick",
  callback = function(event)
    local folder = root(vim.api.nvim_buf_get_name(event.buf))
    local id = servers[folder]
    if not id or not vim.lsp.get_client_by_id(id) then
      id = vim.lsp.start_client({ name = "budstick", cmd = { "budstick", "lsp" }, root_dir = folder })
      servers[folder] = id
    end
    if id then
      vim.lsp.buf_attach_client(event.buf, id)
      -- As Neovim does by itself from 0.8 on.
      vim.bo[event.buf].omnifunc = "v:lua.vim.lsp.omnifunc"
      vim.bo[event.buf].tagfunc = "v:lua.vim.lsp.tagfunc"
    end
  end,
})
