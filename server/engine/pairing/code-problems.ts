/** Code spans that take no limit from prose: yes/no names, texts, sets and modes (2 · rules 7 and 8). */
import { OFF_WORDS } from '../../../grammar/sentence-words';
import type { CodeType, PairingProblem } from '../pairing';
import type { RawPhrase } from './attach';
import type { Clause } from './clause';
import { type Context, keyAt } from './context';
import { codeProblem } from './problem';
import type { CodePlace, Roles } from './roles';
import { replaceCode } from './text';

export function codeProblems(
  context: Context,
  roles: Roles,
  clauses: readonly Clause[],
  types: readonly CodeType[],
  phrases: readonly RawPhrase[],
): readonly PairingProblem[] {
  const offSentences = sentencesWithOff(context, clauses, phrases);
  const inMain = roles.others.flatMap((place) => {
    const clause = clauses[place.clause];
    const type = types[place.code];
    const isAlternative = keyAt(context, clause?.from ?? 0) === 'or';
    if (isAlternative && (type?.type === 'boolean' || type?.type === 'condition'))
      return alternative(context, place.code);
    return problemOf(context, place, type, offSentences.has(clause?.sentence ?? -1)) ?? [];
  });
  return [...inMain, ...roles.looseModes.map((place) => modeProblem(context, place))];
}

function problemOf(
  context: Context,
  place: CodePlace,
  type: CodeType | undefined,
  hasOffWord: boolean,
): PairingProblem | null {
  const text = context.reading.prose.codes[place.code]?.code ?? '';
  if (type?.type === 'boolean') return hasOffWord ? yesOrNo(context, place.code, text) : null;
  if (type?.type === 'mode') return modeProblem(context, place);
  if (type?.type === 'text') {
    const message = `\`${text}\` is a text, and a text needs a condition: \`${text} is one of ("…", "…")\``;
    return codeProblem(context, place.code, message, []);
  }
  if (type?.type !== 'set') return null;
  return codeProblem(context, place.code, `\`${text}\` is a set, and a set needs a condition: \`${text} has …\``, []);
}

/** "draw less than 60 W (`draw`) or be sealed (`sealed`)" is no promise of both. */
function alternative(context: Context, code: number): PairingProblem {
  const text = context.reading.prose.codes[code]?.code ?? '';
  const message = `\`${text}\` stands behind “or”, which leaves open whether it must hold as well: make it a requirement of its own or write one condition`;
  return codeProblem(context, code, message, []);
}

function yesOrNo(context: Context, code: number, text: string): PairingProblem {
  const message = `\`${text}\` is yes or no, and the sentence has a word of negation: is \`${text}\` or \`not ${text}\` meant?`;
  const fixes = [replaceCode(context, code, `${text} = yes`), replaceCode(context, code, `not ${text}`)];
  return codeProblem(context, code, message, fixes);
}

function modeProblem(context: Context, { code }: CodePlace): PairingProblem {
  const text = context.reading.prose.codes[code]?.code ?? '';
  const message = `\`${text}\` is a mode, and only “While \`${text}\`, …” judges a requirement in one mode: begin with it, or list \`${text}\` under “Not limits:”`;
  return codeProblem(context, code, message, []);
}

/** Sentences that hold, outside conditions, a word that may mean *no*; the negation of a limit phrase is its own. */
function sentencesWithOff(
  context: Context,
  clauses: readonly Clause[],
  phrases: readonly RawPhrase[],
): ReadonlySet<number> {
  const own = new Set(phrases.flatMap(({ negation }) => (negation ? [negation.from] : [])));
  const result = new Set<number>();
  for (const { from, to, kind, sentence } of clauses) {
    if (kind !== 'main' || result.has(sentence)) continue;
    for (let index = from; index < to; index++) {
      const isOff = OFF_WORDS.has(keyAt(context, index)) || context.termFrom.get(index)?.meaning.kind === 'negation';
      if (isOff && !own.has(index)) result.add(sentence);
    }
  }
  return result;
}
