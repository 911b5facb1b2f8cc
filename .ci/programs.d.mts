/** Whether a program of this name can be started. */
export function isOnPath(command: string): boolean;
