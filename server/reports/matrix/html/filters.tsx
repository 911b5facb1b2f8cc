/** What narrows the table down; without a script it is not shown, since nothing would answer. */
import { EVIDENCE_STATES } from '../../../engine/evidence/state';
import { VERDICTS } from '../coverage';
import type { Matrix } from '../record';

export function Filters({ matrix: { coverage, documents } }: { readonly matrix: Matrix }) {
  const verdicts = VERDICTS.filter((verdict) => coverage.verdicts[verdict] > 0);
  const evidence = EVIDENCE_STATES.filter((state) => coverage.evidence[state] > 0);
  return (
    <form id="filters" class="filters" hidden aria-label="Narrow down the requirements">
      <label class="search">
        Text
        <input type="search" name="text" autocomplete="off" spellcheck={false} />
      </label>
      <label>
        Document
        <select name="document">
          <option value="">all {documents.length}</option>
          {documents.map(({ file }) => (
            <option key={file} value={file}>
              {file}
            </option>
          ))}
        </select>
      </label>
      <Choices name="verdict" legend="Verdict" words={verdicts} counts={coverage.verdicts} />
      <Choices name="evidence" legend="Evidence" words={evidence} counts={coverage.evidence} />
      <div class="outcome">
        <p role="status" id="shown" />
        <button type="reset">Show all</button>
      </div>
    </form>
  );
}

function Choices<Word extends string>({
  name,
  legend,
  words,
  counts,
}: {
  readonly name: string;
  readonly legend: string;
  readonly words: readonly Word[];
  readonly counts: Readonly<Record<Word, number>>;
}) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      {words.map((word) => (
        <label key={word} class="choice">
          <input type="checkbox" name={name} value={word} />
          {word} <span class="count">{counts[word]}</span>
        </label>
      ))}
    </fieldset>
  );
}
