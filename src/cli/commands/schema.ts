// `schema`: what goes in and what comes out, for programs that want to check before they call.
import { failure, type Result, success } from '../../base/result.ts';
import type { Command } from '../command.ts';
import { nearestWord } from '../nearest-word.ts';
import { schemaCatalogue } from '../schemas/catalogue.ts';
import { twoColumns } from '../wrap.ts';

function find(name: string): Result<(typeof schemaCatalogue)[number]> {
  const found = schemaCatalogue.find((known) => known.name === name);
  if (found !== undefined) return success(found);
  const names = schemaCatalogue.map((known) => known.name);
  const near = nearestWord(name, names);
  return failure({
    code: 'unknown-schema',
    message: 'There is no such schema.',
    where: name,
    mend: `${near === null ? '' : `Did you mean ${near}? `}Known: ${names.join(', ')}.`,
  });
}

export const command: Command = {
  name: 'schema',
  summary: "print the JSON Schema of a command's input or output",
  usage: 'schema [NAME]',
  details: 'Without a name it lists the schemas there are. A schema is printed as JSON, with or without --json.',
  options: [],
  example: 'kickpanel schema read > read.schema.json',
  async run({ operands }) {
    const [name, ...more] = operands;
    if (more.length > 0) {
      const issue = { code: 'too-many-arguments', message: 'schema takes one name.', where: more[0] };
      return { status: 2, issues: [{ ...issue, mend: 'Give one name, or none for the list.' }] };
    }
    if (name === undefined) {
      const schemas = schemaCatalogue.map(({ name, about }) => ({ name, about }));
      const rows = schemas.map(({ name, about }): [string, string] => [name, about]);
      return { status: 0, answer: { schemas }, text: (style) => `${twoColumns(rows, style.width).join('\n')}\n` };
    }
    const found = find(name);
    if (!found.ok) return { status: 2, issues: found.issues };
    const answer = await found.value.jsonSchema();
    return { status: 0, answer, text: () => `${JSON.stringify(answer, null, 2)}\n` };
  },
};
