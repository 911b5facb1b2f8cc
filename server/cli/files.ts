/** What the command line says of the files it was pointed at, besides what is found in them. */
import type { ProductPlace, ProductTexts } from '../host-files';
import { CONFIGURATION_FILE } from '../model/configuration';

/** Lines for standard error. */
export interface FileNotes {
  readonly lines: readonly string[];
  /** Something could not be read, so that the result is not the whole one: exit status 2. */
  readonly isIncomplete: boolean;
}

/** Names what was not read: products inside this one, unreadable files, a configuration with the wrong name. */
export function fileNotes(
  { misnamed }: ProductPlace,
  { nested, unreadable }: Omit<ProductTexts, 'files' | 'documents'>,
): FileNotes {
  const lines = [
    ...unreadable.map(({ path, reason }) => `${path}: cannot be read: ${reason}`),
    ...nested.map((folder) => `${folder}: a product of its own (it has a ${CONFIGURATION_FILE}), not checked here`),
    ...(misnamed === null ? [] : [`${misnamed}: not read, since the configuration is called ${CONFIGURATION_FILE}`]),
  ];
  return { lines, isIncomplete: unreadable.length > 0 };
}
