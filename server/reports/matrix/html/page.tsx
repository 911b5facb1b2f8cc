/** The matrix as a page: one file that stands alone, or the same parts in an editor's panel. */
import { CAUTIONS } from '../../../../grammar/cautions';
import { type Frame, htmlDocument } from '../../page/document';
import type { Links } from '../../page/links';
import pageStyle from '../../page/page.css?text';
import { Section } from '../../page/parts';
import script from '../../scripts/matrix?text';
import { TOOL } from '../../tool';
import type { Matrix } from '../record';
import { revisionWords, summaryWords } from '../words';
import { Filters } from './filters';
import { FactTable, OpenPointTable, PartTable, WaiverTable } from './ledgers';
import style from './matrix.css?text';
import { Overview } from './overview';
import { RequirementTable } from './requirements';

export function matrixHtml(matrix: Matrix, links: Links, frame: Frame = 'file'): string {
  const parts = {
    title: `${matrix.product}: requirements matrix`,
    body: <MatrixPage matrix={matrix} links={links} />,
    style: pageStyle + style,
    script,
  };
  return htmlDocument(parts, frame);
}

export function MatrixPage({ matrix, links }: { readonly matrix: Matrix; readonly links: Links }) {
  const knownFacts = new Set(matrix.facts.map(({ name }) => name));
  const knownParts = new Set(matrix.parts.map(({ name }) => name));
  return (
    <>
      <a class="skip" href="#requirements">
        Skip to the requirements
      </a>
      <Head matrix={matrix} />
      <main>
        <Caution />
        <Section id="overview" title="Where it stands">
          <Overview matrix={matrix} links={links} />
        </Section>
        <Section id="requirements" title="Requirements">
          <Filters matrix={matrix} />
          <RequirementTable rows={matrix.requirements} links={links} knownFacts={knownFacts} knownParts={knownParts} />
        </Section>
        <Section id="figures" title="What rests on each figure">
          <FactTable facts={matrix.facts} links={links} />
        </Section>
        <Section id="parts" title="What rests on each part">
          <PartTable parts={matrix.parts} links={links} />
        </Section>
        <Section id="open-points" title="Open points">
          <OpenPointTable points={matrix.openPoints} links={links} />
        </Section>
        <Section id="waivers" title="Waivers">
          <WaiverTable waivers={matrix.waivers} links={links} />
        </Section>
      </main>
      <Foot matrix={matrix} />
    </>
  );
}

const CONTENTS: readonly (readonly [id: string, title: string])[] = [
  ['overview', 'Where it stands'],
  ['requirements', 'Requirements'],
  ['figures', 'Figures'],
  ['parts', 'Parts'],
  ['open-points', 'Open points'],
  ['waivers', 'Waivers'],
];

function Head({ matrix }: { readonly matrix: Matrix }) {
  return (
    <header>
      <p class="kind">Requirements matrix</p>
      <h1>{matrix.product}</h1>
      <p class="summary">{summaryWords(matrix)}.</p>
      <dl class="facts">
        <div>
          <dt>Date</dt>
          <dd>{matrix.date ?? 'not given'}</dd>
        </div>
        <div>
          <dt>Revision</dt>
          <dd>{revisionWords(matrix.revision)}</dd>
        </div>
        <div>
          <dt>Phase</dt>
          <dd>{matrix.phase}</dd>
        </div>
      </dl>
      <nav aria-label="Contents">
        <ul class="inline">
          {CONTENTS.map(([id, title]) => (
            <li key={id}>
              <a href={`#${id}`}>{title}</a>
            </li>
          ))}
        </ul>
      </nav>
    </header>
  );
}

function Caution() {
  return (
    <aside class="caution" aria-label="Caution">
      <p>
        <strong>Caution.</strong> {CAUTIONS.join(' ')}
      </p>
    </aside>
  );
}

function Foot({ matrix }: { readonly matrix: Matrix }) {
  return (
    <footer>
      <p>
        {matrix.product}, {matrix.date ?? 'no date'}, {revisionWords(matrix.revision)}. Made by {TOOL.name}{' '}
        {TOOL.version}.
      </p>
    </footer>
  );
}
