/** Types of the plugins for `?text` imports. */
import type { Plugin } from 'esbuild';
import type { Plugin as TestPlugin } from 'vitest/config';

export declare const textImports: Plugin;
export declare const textImportsOfTests: TestPlugin;
