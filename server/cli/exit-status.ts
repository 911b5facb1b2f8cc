/** What a command says to whoever started it. */

/** 0: nothing at or above the level asked for. 1: findings. 2: usage, or input that could not be read; 2 wins over 1. */
export type ExitStatus = 0 | 1 | 2;
