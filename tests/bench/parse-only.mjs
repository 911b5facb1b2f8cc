/** What the Markdown parser alone takes: reads every file of a folder and parses it with the same plugins, nothing more. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';

const folder = process.argv[2];
const processor = unified().use(remarkParse).use(remarkGfm);
let nodes = 0;
for (const name of readdirSync(folder))
  nodes += processor.parse(readFileSync(join(folder, name), 'utf8')).children.length;
process.stdout.write(`${nodes}\n`);
