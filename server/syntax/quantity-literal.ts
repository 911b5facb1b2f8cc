/** Figures as text: literals inside expressions, and the plain values of front matter. */
export { type LiteralOptions, type ScannedLiteral, scanLiteral } from './quantity/literal';
export { type ReadValue, readValue } from './quantity/value';
