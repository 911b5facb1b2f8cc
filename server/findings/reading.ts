/** What the reading of a sentence asks: which-limit, unchecked, words-disagree, several-obligations, unit-mismatch. */
import type { AnalysisPart } from '../engine/parts';
import { codeOf } from './causes';
import type { Draft } from './finding';

export function* readingQuestions({ requirements }: AnalysisPart): Iterable<Draft> {
  for (const { requirement, problems } of requirements) {
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
