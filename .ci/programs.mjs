/** Programs of the system that tests drive, with the Debian packages that bring them. */
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

export const PROGRAMS = [
  { command: 'chromium', packages: ['chromium', 'fonts-dejavu-core'], tests: 'pages in a real browser' },
  { command: 'rg', packages: ['ripgrep'], tests: 'the extension in a VS Code workbench, which finds files with it' },
  { command: 'nvim', packages: ['neovim'], tests: 'the language server in Neovim' },
];

/** What a VS Code workbench needs to be opened. */
export const WORKBENCH_PROGRAMS = ['chromium', 'rg'];

export function isOnPath(command) {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return folders.some((folder) => existsSync(join(folder, command)) || existsSync(join(folder, `${command}.exe`)));
}
