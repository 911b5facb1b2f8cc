/** The Markdown of one document → its requirements, from headings and from tables. */
import type { Block, Heading, List, ListItem, Paragraph, Prose, Table, TableRow } from '../syntax/markdown/block';
import { documentSpan } from '../syntax/markdown/document-span';
import { joinProse } from '../syntax/sentence/join-prose';
import { obligationOf } from '../syntax/sentence/obligation';
import { type Problem, type Span, spanOf } from '../syntax/span';
import { beginsWithQuantity, brokenLine } from './broken-line';
import { readAttribute, readCell } from './read-attributes';
import type { Attribute, Requirement } from './requirement';
import { type HeadingId, idOfHeading, isId } from './requirement-id';

export interface ReadRequirements {
  readonly requirements: readonly Requirement[];
  /** Paragraphs with *shall* or *must* outside every requirement. */
  readonly withoutId: readonly Span[];
  readonly passedOver: readonly PassedOver[];
  readonly problems: readonly Problem[];
}

/** A heading that looks like an id, and nothing in its reach that binds. */
export interface PassedOver {
  readonly id: string;
  readonly idSpan: Span;
  /** Of it and of the paragraphs in its reach what has code spans; never empty. */
  readonly prose: readonly Prose[];
}

/**
 * Reads the blocks of a document in order. `prefixes`: what may begin an id (`ids:` in front matter), or null;
 * without it a heading that only looks like an id is an ordinary heading. `text`: the document's.
 */
export function readRequirements(
  blocks: readonly Block[],
  file: string,
  prefixes: readonly string[] | null,
  text: string,
): ReadRequirements {
  const reader = new RequirementReader(file, prefixes, text);
  let index = 0;
  while (index < blocks.length) index = reader.next(blocks, index);
  return reader;
}

class RequirementReader implements ReadRequirements {
  readonly requirements: Requirement[] = [];
  readonly withoutId: Span[] = [];
  readonly passedOver: PassedOver[] = [];
  readonly problems: Problem[] = [];

  constructor(
    private readonly file: string,
    private readonly prefixes: readonly string[] | null,
    private readonly text: string,
  ) {}

  /** Reads the block at `index` and what belongs to it; returns the index of the block after. */
  next(blocks: readonly Block[], index: number): number {
    const block = blocks[index] as Block;
    if (block.type === 'heading') {
      const id = idOfHeading(block.prose.text, this.prefixes);
      if (id === null) return index + 1;
      const reach = this.reachOf(block, blocks, index + 1);
      const body = blocks.slice(index + 1, reach);
      if (!this.isRequirement(body)) {
        this.passOver(block, id, body);
        return index + 1;
      }
      this.heading(block, id, body);
      return reach;
    }
    if (block.type === 'table') this.table(block);
    else if (block.type === 'paragraph' && bindsAtAll(block.prose)) this.withoutId.push(block.span);
    return index + 1;
  }

  /** To the next heading of the same or a higher level, or the next id. */
  private reachOf(heading: Heading, blocks: readonly Block[], from: number): number {
    const end = blocks.findIndex(
      (block, index) =>
        index >= from &&
        block.type === 'heading' &&
        (block.depth <= heading.depth || idOfHeading(block.prose.text, this.prefixes) !== null),
    );
    return end < 0 ? blocks.length : end;
  }

  private isRequirement(body: readonly Block[]): boolean {
    if (this.prefixes !== null) return true;
    return body.some(
      (block) =>
        (block.type === 'paragraph' &&
          (obligationOf(block.prose) !== null || readAttribute(block.prose).type === 'known')) ||
        (block.type === 'list' && block.items.some(isOfRequirement)),
    );
  }

  private passOver({ prose }: Heading, { id, at }: HeadingId, body: readonly Block[]): void {
    const paragraphs = body.flatMap((block) => (block.type === 'paragraph' ? [block.prose] : []));
    const withCode = [prose, ...paragraphs].filter(({ codes }) => codes.length > 0);
    if (withCode.length > 0)
      this.passedOver.push({ id, idSpan: documentSpan(prose, at, at + id.length), prose: withCode });
  }

  private heading(heading: Heading, id: HeadingId, body: readonly Block[]): void {
    const attributes: Attribute[] = [];
    const brokenLines: Problem[] = [];
    const paragraphs = body
      .filter((block) => block.type === 'paragraph')
      .filter((block) => this.isStatement(block, attributes));
    const chosen = statementOf(paragraphs);
    const sentences: Sentence[] = [...chosen];
    for (const [index, block] of body.entries()) {
      if (block.type === 'table') this.table(block);
      const lead = body[index - 1];
      const isBehind = lead?.type === 'paragraph' && chosen.includes(lead);
      const takesItems = isBehind && endsWithColon(lead.prose);
      if (isBehind && !takesItems) brokenLines.push(...this.broken(lead, block));
      if (block.type !== 'list') continue;
      this.list(block, attributes, takesItems ? sentences : null);
      if (takesItems) brokenLines.push(...block.items.flatMap(({ blocks }) => this.broken(blocks[0], blocks[1])));
    }
    const obligation = chosen[0] === undefined ? null : obligationOf(chosen[0].prose);
    const last = body[body.length - 1]?.span.end ?? heading.span.end;
    this.requirements.push({
      id: id.id,
      idSpan: documentSpan(heading.prose, id.at, id.at + id.id.length),
      title: titleOf(heading.prose, id),
      file: this.file,
      span: spanOf(heading.span.start, last),
      obligation: obligation ?? 'shall',
      obligationWritten: obligation !== null,
      statement: sentences.length === 0 ? null : joinProse(sentences.map(({ prose }) => prose)),
      statementSpan: chosen[0]?.span ?? heading.span,
      statementSource: { type: 'blocks', spans: sentences.map(({ span }) => span) },
      attributes,
      brokenLines,
    });
  }

  private broken(before: Block | undefined, block: Block | undefined): readonly Problem[] {
    const isEnded = before?.type !== 'paragraph' || endsWithColon(before.prose);
    const problem = isEnded || block === undefined ? null : brokenLine(before.span, block, this.text);
    return problem === null ? [] : [problem];
  }

  /** A paragraph that is a known attribute (`Rationale: …`) is none of the statement. */
  private isStatement(paragraph: Paragraph, attributes: Attribute[]): boolean {
    const read = readAttribute(paragraph.prose);
    if (read.type !== 'known') return true;
    attributes.push({ span: paragraph.span, ...read.attribute });
    return false;
  }

  private list(list: List, attributes: Attribute[], sentences: Sentence[] | null): void {
    for (const item of list.items) {
      const lead = leadOf(item);
      const read = readAttribute(lead.prose);
      if (read.type === 'known') attributes.push({ span: item.span, ...read.attribute });
      else if (sentences !== null) sentences.push(lead);
      else if (read.type === 'unknown') this.problems.push(read.problem);
    }
  }

  /** A table with the header cells ID and Requirement is a requirement a row. */
  private table(table: Table): void {
    const headers = table.header.map(({ text }) => text.trim());
    const idColumn = headers.findIndex((text) => text.toLowerCase() === 'id');
    const textColumn = headers.findIndex((text) => text.toLowerCase() === 'requirement');
    if (idColumn < 0 || textColumn < 0) return;
    for (const row of table.rows) this.row(row, table.header, idColumn, textColumn);
  }

  private row(row: TableRow, header: readonly Prose[], idColumn: number, textColumn: number): void {
    const idCell = row.cells[idColumn];
    const textCell = row.cells[textColumn];
    const id = idCell?.text.trim() ?? '';
    if (idCell === undefined || textCell === undefined) return;
    if (!isId(id, this.prefixes)) {
      if (bindsAtAll(textCell)) this.withoutId.push(row.span);
      return;
    }
    const obligation = obligationOf(textCell);
    const at = idCell.text.indexOf(id);
    this.requirements.push({
      id,
      idSpan: documentSpan(idCell, at, at + id.length),
      title: titleOfRow(row, header),
      file: this.file,
      span: row.span,
      obligation: obligation ?? 'shall',
      obligationWritten: obligation !== null,
      statement: textCell.text.trim() === '' ? null : textCell,
      statementSpan: row.span,
      statementSource: { type: 'cell', row: row.span, column: textColumn },
      attributes: this.cells(row, header, [idColumn, textColumn]),
      brokenLines: [],
    });
  }

  private cells(row: TableRow, header: readonly Prose[], without: readonly number[]): Attribute[] {
    const attributes: Attribute[] = [];
    for (const [index, cell] of row.cells.entries()) {
      const head = header[index];
      if (head === undefined || without.includes(index) || cell.text.trim() === '') continue;
      if (head.text.trim().toLowerCase() === 'title') continue;
      const read = readCell(head, cell);
      if (read.type === 'known') attributes.push({ span: row.span, ...read.attribute });
    }
    return attributes;
  }
}

/** Every paragraph with shall; else the first with should; else with will or may; else the first. */
function statementOf(paragraphs: readonly Paragraph[]): readonly Paragraph[] {
  const obliged = (words: readonly string[]) =>
    paragraphs.filter(({ prose }) => words.includes(obligationOf(prose) ?? ''));
  const binding = obliged(['shall']);
  if (binding.length > 0) return binding;
  const weaker = obliged(['should'])[0] ?? obliged(['will', 'may'])[0] ?? paragraphs[0];
  return weaker === undefined ? [] : [weaker];
}

/** An attribute, or the rest of a sentence that was broken before its obligation word. */
function isOfRequirement(item: ListItem): boolean {
  const { prose } = leadOf(item);
  return readAttribute(prose).type === 'known' || (beginsWithQuantity(item) && obligationOf(prose) !== null);
}

function bindsAtAll(prose: Prose): boolean {
  return obligationOf(prose) === 'shall';
}

function endsWithColon(prose: Prose): boolean {
  return prose.text.trimEnd().endsWith(':');
}

const NO_PROSE: Prose = { text: '', codes: [], runs: [] };

/** A part of a statement. */
type Sentence = Pick<Paragraph, 'prose' | 'span'>;

function leadOf(item: ListItem): Sentence {
  const [first] = item.blocks;
  return first?.type === 'paragraph' ? first : { prose: NO_PROSE, span: spanOf(item.span.start, item.span.start) };
}

/** With its code spans as a reader sees them. */
function titleOf({ codes }: Prose, { title, at }: HeadingId): string {
  const own = codes.filter((code) => code.at > at);
  let next = 0;
  return title.replace(/\uFFFC/gu, () => own[next++]?.code ?? '');
}

function titleOfRow(row: TableRow, header: readonly Prose[]): string {
  const column = header.findIndex(({ text }) => text.trim().toLowerCase() === 'title');
  return row.cells[column]?.text.trim() ?? '';
}
