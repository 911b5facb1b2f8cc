/** All that an editor may ask of a document. */
import { registerCodeActions } from './features/code-actions';
import { registerCompletion } from './features/completion';
import { registerHints, registerLenses } from './features/hints';
import { registerHover } from './features/hover';
import { registerNavigation } from './features/navigation';
import { registerRename } from './features/rename';
import { registerStructure } from './features/structure';
import { registerSymbols } from './features/symbols';
import type { ServerState } from './state';

export function registerFeatures(state: ServerState): void {
  registerHover(state);
  registerCodeActions(state);
  registerNavigation(state);
  registerSymbols(state);
  registerHints(state);
  registerLenses(state);
  registerCompletion(state);
  registerRename(state);
  registerStructure(state);
}
