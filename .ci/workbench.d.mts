/** Null where no workbench is installed. */
export function workbenchProgram(): string | null;
