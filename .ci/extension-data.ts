/** Data of the editor's extension that follows from the grammar and the schemas. */
import { injectionGrammars } from '../grammar/injection-grammar';
import { configurationJsonSchema } from '../server/model/configuration-schema';
import { frontMatterJsonSchema } from '../server/model/front-matter-schema';

/** By the path in the extension. */
export function extensionData(): Readonly<Record<string, unknown>> {
  const grammars = Object.entries(injectionGrammars()).map(([name, grammar]) => [
    `syntaxes/${name}.tmLanguage.json`,
    grammar,
  ]);
  return {
    'schemas/plimsoll.schema.json': configurationJsonSchema(),
    'schemas/front-matter.schema.json': frontMatterJsonSchema(),
    ...Object.fromEntries(grammars),
  };
}
