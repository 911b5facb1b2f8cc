/** What the reading of a sentence asks: which-limit, unchecked, words-disagree, several-obligations, unit-mismatch. */
import type { Analysis } from '../engine/analysis';
import { codeOf } from './causes';
import type { Draft } from './finding';

export function* readingQuestions(analysis: Analysis): Iterable<Draft> {
  for (const { requirement, problems } of analysis.requirements) {
    for (const problem of problems) {
      yield {
        code: codeOf(problem),
        requirement: requirement.id,
        message: `${requirement.id}: ${problem.message}`,
        place: { file: requirement.file, span: problem.span },
        fixes: problem.fixes,
      };
    }
  }
}
