/** Diagnostics stand still while a figure is being typed: what waits, what is kept, and for how long. */
import { describe, expect, test } from 'vitest';
import { shownVerdict } from '../../server/features/lenses';
import { HOLDS_FOR, type Shown, standStill } from '../../server/lsp/still';
import { createProductWorkspace } from '../../server/workspace';
import { analyseFiles } from '../support/analyse';

const REQUIREMENT =
  '---\nrequirements: Test\n---\n## P-1 Power\n\nThe product shall draw no more than 60 W (`draw`).\n';
const files = (draw: string) => ({ 'p.md': REQUIREMENT, 'd.md': `---\nfacts:\n  draw: ${draw}\n---\n` });
const LINE_OF_DRAW = { file: 'd.md', lines: { first: 2, last: 2 } };

/** Types one figure after another, so many milliseconds apart; what is shown after each. */
function typed(figures: readonly string[], apart: number): readonly Shown[] {
  let shown: Shown | null = null;
  return figures.map((figure, index) => {
    const edit = index === 0 ? null : { ...LINE_OF_DRAW, at: index * apart };
    shown = standStill(shown, analyseFiles(files(figure)), edit, index * apart);
    return shown;
  });
}

const codes = (shown: Shown | undefined) => [...(shown?.byFile.values() ?? [])].flat().map(({ code }) => code);
const verdict = (shown: Shown | undefined) => {
  const result = shown?.parts.get('p.md')?.requirements.find(({ requirement }) => requirement.id === 'P-1');
  return shown && result && shownVerdict(result, shown.held);
};

describe('45 W, 4, 65 W', () => {
  const [met, half, unmet] = typed(['45 W', '4', '65 W'], 100);

  test('the requirement keeps its verdict while the figure has no unit yet', () => {
    expect(verdict(met)).toBe('met');
    expect(verdict(half)).toBe('met');
    expect(codes(half)).not.toContain('unit-mismatch');
    expect(half?.until).toBe(100 + HOLDS_FOR);
  });

  test('what the whole figure breaks is shown at once', () => {
    expect(verdict(unmet)).toBe('unmet');
    expect(codes(unmet)).toContain('unmet');
  });
});

test('a limit that was broken stays broken while the figure is retyped', () => {
  const [before, half] = typed(['65 W', '6'], 100);
  expect(codes(before)).toContain('unmet');
  expect(codes(half)).toContain('unmet');
});

test('after half a second without an edit all is shown as it is', () => {
  const half = analyseFiles(files('4'));
  const before = standStill(null, analyseFiles(files('45 W')), null, 0);
  const edit = { ...LINE_OF_DRAW, at: 100 };
  expect(verdict(standStill(before, half, edit, 100 + HOLDS_FOR - 1))).toBe('met');
  expect(verdict(standStill(before, half, edit, 100 + HOLDS_FOR))).toBe('undecided');
});

describe('a new finding on the edited line', () => {
  const before = standStill(null, analyseFiles(files('45 W')), null, 0);
  const wrong = analyseFiles(files('45 WW'));

  test('waits', () => {
    expect(codes(standStill(before, wrong, { ...LINE_OF_DRAW, at: 100 }, 101))).not.toContain('bad-value');
  });

  test('is shown once another line is edited', () => {
    const edit = { file: 'd.md', lines: { first: 0, last: 0 }, at: 100 };
    expect(codes(standStill(before, wrong, edit, 101))).toContain('bad-value');
  });

  test('is cleared at once', () => {
    const shown = standStill(before, wrong, null, 0);
    const after = standStill(shown, analyseFiles(files('46 W')), { ...LINE_OF_DRAW, at: 100 }, 101);
    expect(codes(shown)).toContain('bad-value');
    expect(codes(after)).not.toContain('bad-value');
  });
});

test('where work is kept, a finding that is held stands where its words stand, however often they have moved', () => {
  const workspace = createProductWorkspace({ holdsLastGood: true, keepsWork: true });
  const figure = (draw: string, note: string) => `---\n# ${note}\nfacts:\n  draw: ${draw}\n---\n`;
  const requirement = (title: string) => REQUIREMENT.replace('Test', title);
  const moments = [
    [figure('65 W', 'a'), requirement('Test')],
    [figure('65 W', 'ab'), requirement('Tests')],
    [figure('6', 'abc'), requirement('Testing')],
    [figure('6x', 'a'), requirement('T')],
  ] as const;
  let shown: Shown | null = null;
  for (const [index, [design, text]] of moments.entries()) {
    workspace.setDocument('d.md', design);
    workspace.setDocument('p.md', text);
    workspace.expectEdits('d.md');
    workspace.expectEdits('p.md');
    const edit = index === 0 ? null : { file: 'd.md', lines: { first: 3, last: 3 }, at: index * 100 };
    shown = standStill(shown, workspace.analysis({ today: '2026-11-15' }), edit, index * 100);
    const [unmet] = (shown.byFile.get('p.md') ?? []).filter(({ code }) => code === 'unmet');
    const words = unmet && text.slice(unmet.place.span.start, unmet.place.span.end);
    expect(words, `moment ${index}`).toBe('no more than 60 W');
    const [related] = unmet?.related ?? [];
    expect(design.slice(0, related?.place.span.start).split('\n').length).toBe(4);
  }
});
