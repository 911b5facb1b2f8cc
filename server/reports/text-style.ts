/** How text for people is marked; the words carry the meaning, colour only repeats it. */

export type Mark = 'heading' | 'good' | 'doubtful' | 'bad' | 'quiet';

export interface TextStyle {
  paint(mark: Mark, text: string): string;
  /** Pads to a number of columns. */
  pad(text: string, columns: number): string;
  /** Pads in front. */
  padStart(text: string, columns: number): string;
}
