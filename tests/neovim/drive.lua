-- Drives Neovim's own client as a person would, in a copy of Tern, and prints what came of it as one line of JSON.
local found = {}

local function wait(what, holds)
  assert(vim.wait(20000, holds, 20), what .. ' did not come')
end

local function ask(method, params)
  local answers, mistake = vim.lsp.buf_request_sync(0, method, params, 20000)
  assert(answers, method .. ': ' .. tostring(mistake))
  local _, answer = next(answers)
  assert(answer and not answer.err, method .. ': ' .. vim.inspect(answer))
  return answer.result
end

local function messages(buffer)
  return vim.tbl_map(function(one) return one.message end, vim.diagnostic.get(buffer))
end

local function anyStartsWith(texts, start)
  for _, text in ipairs(texts) do
    if vim.startswith(text, start) then return true end
  end
  return false
end

local function lines()
  return vim.api.nvim_buf_get_lines(0, 0, -1, false)
end

local function main()
  vim.cmd('edit requirements/power.md')
  local requirements = vim.api.nvim_get_current_buf()
  wait('a diagnostic', function() return anyStartsWith(messages(requirements), 'TRN-031: ') end)
  found.diagnostics = messages(requirements)

  vim.fn.search('supply\\.draw')
  vim.cmd('normal! 7l')
  local here = vim.lsp.util.make_position_params(0, 'utf-16')
  found.hover = ask('textDocument/hover', here).contents.value
  local last = { line = vim.fn.line('$'), character = 0 }
  local whole = { start = { line = 0, character = 0 }, ['end'] = last }
  found.hints = ask('textDocument/inlayHint', { textDocument = here.textDocument, range = whole })
  found.completion = ask('textDocument/completion', here)

  vim.lsp.buf.definition()
  wait('the definition', function() return vim.fn.expand('%:t') == 'power.md' and vim.fn.line('.') == 7 end)
  found.definition = { file = vim.fn.fnamemodify(vim.fn.expand('%'), ':.'), line = vim.fn.line('.') }

  vim.fn.cursor(6, 1)
  vim.cmd('silent substitute/0\\.91/0.81/')
  wait('the effect of an edit', function()
    for _, one in ipairs(vim.diagnostic.get(requirements)) do
      if one.code == 'unmet' and vim.startswith(one.message, 'TRN-031: ') then return true end
    end
  end)
  found.afterEdit = messages(requirements)
  vim.cmd('silent undo')

  vim.fn.cursor(7, 6)
  vim.lsp.buf.rename('load')
  wait('the new name', function() return vim.fn.search('^    load:', 'nw') > 0 end)
  found.renamedDesign = lines()
  vim.cmd('buffer ' .. requirements)
  found.renamedRequirements = lines()

  local client = vim.lsp.get_active_clients()[1]
  client.stop()
  wait('the end of the server', function() return client.is_stopped() end)
end

local ok, mistake = xpcall(main, debug.traceback)
if not ok then
  io.stderr:write(tostring(mistake) .. '\n')
  vim.cmd('cquit 1')
end
io.stdout:write(vim.json.encode(found) .. '\n')
vim.cmd('qall!')
