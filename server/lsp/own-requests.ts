/** The requests of our own: a product for a tree, pages, trials and explanations. */

import type { CancellationToken } from 'vscode-languageserver';
import type { RequirementResult } from '../engine/analysis';
import { marginOf } from '../features/figures';
import { describe } from '../features/hover';
import { type HeldVerdicts, shownMargin, shownVerdict } from '../features/lenses';
import { named } from '../features/named';
import { trialFigures } from '../features/trial-figures';
import { shownTitle } from '../findings/requirement-text';
import { listOf } from '../model/requirement';
import { STARTER_FIGURE, STARTER_FILE, STARTER_TEXT } from '../reports/starter';

import type { FileWork } from './files';
import { guardedRequest } from './guard';
import type { ExplainResult, FiguresResult, PageResult, Requests, RequirementItem } from './messages';
import { pages } from './pages';
import type { ServerState } from './state';
import { heldOf, placeOf, restedSubjectOf, type Subject, subjectOf } from './subject';
import { productName } from './summary';
import { changesBetween } from './trial';

export function registerOwnRequests(state: ServerState, files: FileWork): void {
  const { connection } = state;
  const on = <Name extends keyof Requests>(
    name: Name,
    answer: (
      params: Requests[Name]['params'],
      token: CancellationToken,
    ) => Requests[Name]['result'] | Promise<Requests[Name]['result']>,
  ) => {
    connection.onRequest<unknown, undefined>(
      name,
      guardedRequest(connection, name, async (params: Requests[Name]['params'], token) => {
        await state.reading.settled(token);
        return answer(params, token);
      }),
    );
  };
  on('plimsoll/requirements', ({ uri }) => {
    const subject = subjectOf(state, uri);
    if (subject === null) return null;
    const { requirements } = subject.whole.analysis;
    const held = heldOf(state, subject);
    const overSpecified = new Set(
      [...(subject.live.shown?.byFile.values() ?? [])]
        .flat()
        .flatMap(({ code, requirement }) => (code === 'over-specified' && requirement !== null ? requirement : [])),
    );
    return {
      product: productName(subject.live),
      requirements: requirements.map((result) => itemOf(subject, result, held, overSpecified)),
    };
  });
  on('plimsoll/explain', async ({ uri, name }) => {
    const subject = await restedSubjectOf(state, uri);
    return subject === null ? null : explain(subject, name);
  });
  on('plimsoll/trial', ({ uri, values }) => {
    const subject = subjectOf(state, uri);
    return subject === null ? null : changesBetween(subject, values);
  });
  on('plimsoll/figures', ({ uri, requirement }) => {
    const subject = subjectOf(state, uri);
    return subject === null ? null : figuresOf(subject, requirement);
  });
  for (const [name, page] of pages) {
    on(name, ({ uri }): Promise<PageResult | null> | null => (page === null ? null : page(state, uri)));
  }
  on('plimsoll/rescan', async (_params, token) => {
    void files.rescan();
    await state.reading.settled(token);
    return null;
  });
  on('plimsoll/starter', () => ({ file: STARTER_FILE, text: STARTER_TEXT, select: STARTER_FIGURE }));
}

function itemOf(
  subject: Subject,
  result: RequirementResult,
  held: HeldVerdicts,
  overSpecified: ReadonlySet<string>,
): RequirementItem {
  const { requirement, evidence } = result;
  const verdict = shownVerdict(result, held);
  return {
    id: requirement.id,
    title: shownTitle(requirement),
    place: placeOf(subject, { file: requirement.file, span: requirement.idSpan }),
    obligation: requirement.obligation,
    verdict,
    margin: shownMargin(result, held),
    evidence: verdict === 'not applicable' ? null : evidence.state,
    overSpecified: overSpecified.has(requirement.id),
    derivesFrom: listOf(requirement, 'Derives from'),
  };
}

function figuresOf(subject: Subject, id: string): FiguresResult | null {
  const { analysis, texts } = subject.whole;
  const result = analysis.requirements.find(({ requirement }) => requirement.id === id);
  if (result === undefined) return null;
  const figures = trialFigures(analysis, texts, result).map((figure) => ({
    ...figure,
    place: placeOf(subject, figure.place),
  }));
  const { requirement, verdict } = result;
  return { id, title: shownTitle(requirement), verdict, margin: marginOf(result), figures };
}

function explain(subject: Subject, name: string): ExplainResult | null {
  const found = named(subject.whole, name);
  const text = found === null ? null : describe(subject.whole, found.target);
  return found === null || text === null ? null : { text, place: placeOf(subject, found.place) };
}
