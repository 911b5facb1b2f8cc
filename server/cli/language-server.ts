/** `plimsoll lsp`: hands over to the language server, a bundle of its own, so that no other command loads it. */
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { type Command, Option } from 'commander';

/** The server itself reads how it is to be spoken to from the arguments of the process. */
export function addLanguageServer(program: Command): void {
  program
    .command('lsp')
    .description('the language server, for editors')
    .addOption(new Option('--stdio', 'over standard input and output').default(true))
    .option('--clientProcessId <id>', 'the process that it ends with')
    .addHelpText('after', '\nExample:\n  plimsoll lsp --stdio')
    .action(() => {
      if (!process.argv.includes('--stdio')) process.argv.push('--stdio');
      createRequire(__filename)(join(__dirname, 'server.js'));
    });
}
