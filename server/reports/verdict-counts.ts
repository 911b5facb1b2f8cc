/** How many requirements have which verdict, in words: `24 met, 2 at risk, 1 unmet`. */
import type { RequirementResult } from '../engine/analysis';
import type { Verdict } from '../engine/verdict';
import type { Mark, TextStyle } from './text-style';

export const VERDICT_MARKS: Readonly<Record<Verdict, Mark>> = {
  met: 'good',
  'at risk': 'doubtful',
  unmet: 'bad',
  undecided: 'doubtful',
  open: 'doubtful',
  'not applicable': 'quiet',
  waived: 'quiet',
};

const ORDER: readonly Verdict[] = ['met', 'at risk', 'unmet', 'undecided', 'open', 'not applicable', 'waived'];

export function countsText(requirements: readonly RequirementResult[], style: TextStyle): string {
  return ORDER.map((verdict) => ({
    verdict,
    count: requirements.filter((result) => result.verdict === verdict).length,
  }))
    .filter(({ count }) => count > 0)
    .map(({ verdict, count }) => style.paint(VERDICT_MARKS[verdict], `${count} ${verdict}`))
    .join(', ');
}
