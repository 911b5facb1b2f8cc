/** `plimsoll check` and `plimsoll new` as a user meets them: exit status, streams, files. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inFolder, plimsoll } from '../support/command-line';

/** The five-minute file with the figure given. */
function product(draw: string): Readonly<Record<string, string>> {
  const text = `---\nrequirements: My product\nfacts:\n  supply: {draw: ${draw}}\n---\n## P-1 Power\nThe product shall draw no more than 60 W (\`supply.draw\`).\n`;
  return { 'requirements.md': text };
}

describe('the five-minute file', () => {
  test.each([
    ['45 W', 0, 'met'],
    ['60 W', 0, 'met'],
    ['65 W', 1, 'unmet'],
    ['50 W to 61 W', 1, 'unmet'],
    ['58 W ± 5 %', 0, 'at risk'],
    ['45 A', 1, 'undecided'],
    ['TBD', 0, 'undecided'],
  ])('%s ends with status %i and is %s', (draw, status, verdict) => {
    inFolder(product(draw), (folder) => {
      const run = plimsoll(['check', folder]);
      expect(run.out).toMatch(new RegExp(`^ {2}${verdict} +P-1 `, 'm'));
      expect(run.status).toBe(status);
      // On a slow machine the progress line may stand there, and nothing else.
      expect(run.errors.replace(/^.* …\n/gm, '')).toBe('');
    });
  });

  test('an unmet limit names both figures', () => {
    inFolder(product('65 W'), (folder) => {
      expect(plimsoll(['check', folder]).out).toContain('supply.draw is 65 W, 5 W above the limit of at most 60 W');
    });
  });

  test('0.1 A + 0.2 A meets 0.3 A exactly', () => {
    const text =
      '---\nrequirements: A\nfacts:\n  i: "= 0.1 A + 0.2 A"\n  j: = 0.1 A + 0.2 A\n---\n## P-1 Current\nIt shall draw at most 0.3 A (`j`).\n';
    inFolder({ 'a.md': text }, (folder) => {
      const run = plimsoll(['check', folder]);
      expect(run.out).toContain('j <= 0.3 A: 0.3 A, margin 0 A');
      expect(run.status).toBe(0);
    });
  });

  test('new writes it, check reads it, and a second new leaves it alone', () => {
    inFolder({}, (folder) => {
      expect(plimsoll(['new', join(folder, 'mine')]).status).toBe(0);
      expect(plimsoll(['check', join(folder, 'mine')]).status).toBe(0);
      const before = readFileSync(join(folder, 'mine', 'requirements.md'), 'utf8');
      const again = plimsoll(['new', join(folder, 'mine')]);
      expect(again.status).toBe(2);
      expect(again.errors).toContain('requirements.md');
      expect(readFileSync(join(folder, 'mine', 'requirements.md'), 'utf8')).toBe(before);
    });
  });
});

describe('exit status', () => {
  test('--fail-on decides from which severity on', () => {
    inFolder(product('58 W ± 5 %'), (folder) => {
      expect(plimsoll(['check', folder]).status).toBe(0);
      expect(plimsoll(['check', folder, '--fail-on', 'warning']).status).toBe(1);
    });
  });

  test('2 for a folder that is not there, an unknown option, and a level that is none', () => {
    expect(plimsoll(['check', '/nowhere/at/all']).status).toBe(2);
    expect(plimsoll(['check', '--colour']).status).toBe(2);
    expect(plimsoll(['check', '--fail-on', 'never']).status).toBe(2);
    expect(plimsoll(['chek']).status).toBe(2);
  });

  test('2 for a mistake in plimsoll.yaml, and the output is written all the same', () => {
    inFolder({ ...product('45 W'), 'plimsoll.yaml': 'phas: design\n' }, (folder) => {
      const run = plimsoll(['check', folder]);
      expect(run.status).toBe(2);
      expect(run.out).toContain('bad-configuration');
      expect(run.out).toMatch(/met +P-1/);
    });
  });

  test('help is no mistake, and every command has an example', () => {
    for (const args of [['--help'], ['check', '--help'], ['new', '--help']]) {
      const run = plimsoll(args);
      expect(run.status).toBe(0);
      expect(run.out).toContain('Usage');
      if (args.length > 1) expect(run.out).toContain('Example');
    }
  });
});

describe('files', () => {
  test('bytes that are no UTF-8 are a finding, and the rest is checked', () => {
    inFolder({ ...product('45 W'), 'wide.md': new Uint8Array([0xff, 0xfe, 0x41, 0x00]) }, (folder) => {
      const run = plimsoll(['check', folder]);
      expect(run.status).toBe(1);
      expect(run.out).toContain('bad-encoding');
      expect(run.out).toMatch(/met +P-1/);
    });
  });

  test('a nested product is named on standard error and not checked', () => {
    inFolder(
      { ...product('45 W'), 'inner/plimsoll.yaml': '', 'inner/a.md': product('65 W')['requirements.md'] as string },
      (folder) => {
        const run = plimsoll(['check', folder]);
        expect(run.status).toBe(0);
        expect(run.errors).toContain('inner');
      },
    );
  });

  test('-o writes the file, and refuses one that stands there already unless forced', () => {
    inFolder(product('45 W'), (folder) => {
      const file = join(folder, 'out.json');
      expect(plimsoll(['check', folder, '--format', 'json', '-o', file]).status).toBe(0);
      expect(JSON.parse(readFileSync(file, 'utf8')).schema).toBe(1);
      const again = plimsoll(['check', folder, '-o', file]);
      expect(again.status).toBe(2);
      expect(JSON.parse(readFileSync(file, 'utf8')).schema).toBe(1);
      expect(plimsoll(['check', folder, '-o', file, '--force']).status).toBe(0);
    });
  });

  test('text has no colour when it is no terminal', () => {
    inFolder(product('65 W'), (folder) => {
      expect(plimsoll(['check', folder]).out).not.toContain('\u001b');
    });
  });
});
