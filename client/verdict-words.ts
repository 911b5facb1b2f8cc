/** Verdicts as people meet them: their order, their signs, and how a product is summed up in one line. */
import type { ProductSummary } from '../server/lsp/messages';

/** Worst first. */
export const VERDICTS = ['unmet', 'at risk', 'undecided', 'open', 'waived', 'met', 'not applicable'] as const;

export const EVIDENCE = ['failed', 'untested', 'planned', 'stale', 'partial', 'calculated', 'verified'] as const;

/** A sign of the editor's own set and one of its theme's colours; the word always stands beside it. */
export interface Sign {
  readonly icon: string;
  readonly color: string | null;
}

const SIGNS: Readonly<Record<string, Sign>> = {
  unmet: { icon: 'error', color: 'problemsErrorIcon.foreground' },
  'at risk': { icon: 'warning', color: 'problemsWarningIcon.foreground' },
  undecided: { icon: 'question', color: 'problemsWarningIcon.foreground' },
  open: { icon: 'circle-large-outline', color: 'problemsInfoIcon.foreground' },
  waived: { icon: 'law', color: 'problemsInfoIcon.foreground' },
  met: { icon: 'check', color: 'testing.iconPassed' },
  'not applicable': { icon: 'circle-slash', color: null },
};

export function signOf(verdict: string): Sign {
  return SIGNS[verdict] ?? { icon: 'circle-outline', color: null };
}

/** `2 unmet · 1 at risk · 30 met`: what needs somebody, then what holds. Verdicts that ask for nothing are left out. */
export function summaryLine({ verdicts, requirements }: ProductSummary): string {
  if (requirements === 0) return 'no requirements';
  const asking = VERDICTS.slice(0, 4).filter((verdict) => (verdicts[verdict] ?? 0) > 0);
  const shown = [...asking, 'met'].filter((verdict) => (verdicts[verdict] ?? 0) > 0);
  if (shown.length === 1 && verdicts.met === requirements) return `all ${requirements} met`;
  return shown.map((verdict) => `${verdicts[verdict]} ${verdict}`).join(' · ') || `${requirements} requirements`;
}

/** The worst verdict that any requirement has. */
export function worstVerdict({ verdicts }: ProductSummary): string {
  return VERDICTS.find((verdict) => (verdicts[verdict] ?? 0) > 0) ?? 'met';
}
