/** Writes a product of any size for benchmarks: files with requirements and facts that rest on each other. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const FACTS_A_FILE = 50;
const REQUIREMENTS_A_FILE = 10;

/** @param {string} folder @param {number} files */
export function generateProduct(folder, files) {
  mkdirSync(folder, { recursive: true });
  for (let index = 0; index < files; index += 1) {
    writeFileSync(join(folder, `part-${String(index).padStart(5, '0')}.md`), documentText(index));
  }
}

/** One file whose front matter is one long table of parts. @param {string} folder @param {number} rows */
export function generateParts(folder, rows) {
  const row = (index) =>
    `  - {id: p${index}, name: Part ${index}, power: ${(index % 90) + 1}.5 mW ± 5 %, quantity: ${(index % 4) + 1}}\n`;
  writeOne(folder, `---\nparts:\n${repeated(rows, row)}---\n# Parts\n`);
}

/** One file whose Markdown is one long table of requirements. @param {string} folder @param {number} rows */
export function generateRequirementTable(folder, rows) {
  const row = (index) =>
    `| GEN-${index + 1} | The module ${index} shall draw no more than ${50 + (index % 100)} W (\`supply.draw\`). | analysis |\n`;
  const start = '---\nrequirements: Generated\nids: [GEN]\nfacts:\n  supply: {draw: 45 W}\n---\n# Table\n\n';
  writeOne(folder, `${start}| ID | Requirement | Verify |\n| --- | --- | --- |\n${repeated(rows, row)}`);
}

function writeOne(folder, text) {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'one.md'), text);
}

function repeated(count, textOf) {
  return Array.from({ length: count }, (_, index) => textOf(index)).join('');
}

function documentText(index) {
  return `---\nrequirements: Generated\nids: [GEN]\nfacts:\n  m${index}:\n${facts(index)}---\n# Module ${index}\n\n${prose(index)}\n${requirements(index)}`;
}

/** Two of five facts are derived: one from its own module, one from the module before. */
function facts(index) {
  let text = '';
  for (let number = 0; number < FACTS_A_FILE; number += 1) {
    text += `    f${number}: ${factText(index, number)}\n`;
  }
  return text;
}

function factText(index, number) {
  const figure = 10 + ((index * 7 + number * 13) % 50);
  switch (number % 5) {
    case 0:
      return `${figure} W ± 5 %`;
    case 1:
      return `${figure}.5 W`;
    case 2:
      return `${figure} W to ${figure + 4} W`;
    case 3:
      return `= f${number - 3} + f${number - 2}`;
    default:
      return index === 0 ? `= f${number - 1} * 2` : `= f${number - 1} + m${index - 1}.f${number - 3}`;
  }
}

function prose(index) {
  return `This module of the generated product holds figure ${index}. It reads like a page that somebody wrote, with *emphasis*, a [link](https://example.org/${index}) and \`code\`, so that a Markdown parser has its usual work.\n`;
}

function requirements(index) {
  let text = '';
  for (let number = 0; number < REQUIREMENTS_A_FILE; number += 1) {
    const id = `GEN-${index * REQUIREMENTS_A_FILE + number + 1}`;
    const fact = `m${index}.f${(number * 5 + 3) % FACTS_A_FILE}`;
    text += `\n## ${id} Promise ${number}\n\nThe module shall draw no more than ${100 + number} W (\`${fact}\`).\n\nRationale: the rail that feeds it is shared with **two** others.\n\n- Verify: analysis\n- Priority: must\n`;
  }
  return text;
}
