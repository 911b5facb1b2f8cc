/** Commands of the editor that the server may name: only where the editor has said that it has them. */
import type { Command } from 'vscode-languageserver';
import type { CommandArguments } from './messages';
import type { ServerState } from './state';

/** Null: the editor has no such command. */
export function commandOf<Name extends keyof CommandArguments>(
  { options }: ServerState,
  title: string,
  command: Name,
  ...given: CommandArguments[Name]
): Command | null {
  return options.commands?.includes(command) ? { title, command, arguments: [...given] } : null;
}
