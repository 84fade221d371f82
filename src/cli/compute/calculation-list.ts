// What a topic can work out, with the inputs of each calculation.
import type { Calculation } from '../../base/calculation.ts';
import type { TextStyle } from '../output.ts';
import { twoColumns, wrapped } from '../wrap.ts';

interface ListedCalculation {
  name: string;
  about: string;
  inputs: { name: string; form: string; default?: string }[];
  caution?: string;
}

/** The calculations as data: name, what comes out, what goes in. */
export function listed(calculations: readonly Calculation[]): ListedCalculation[] {
  return calculations.map(({ name, about, inputs, caution }) => ({
    name,
    about,
    inputs: Object.entries(inputs).map(([input, { form, default: absent }]) => ({
      name: input,
      form,
      ...(absent === undefined ? {} : { default: absent }),
    })),
    ...(caution === undefined ? {} : { caution }),
  }));
}

/** The same for a person. */
export function listText(calculations: readonly ListedCalculation[], style: TextStyle): string {
  const blocks = calculations.map(({ name, about, inputs }) => {
    const rows = inputs.map((input): [string, string] => [
      input.name,
      input.default === undefined ? input.form : `${input.form} (default: ${input.default})`,
    ]);
    return [...wrapped(`${name}: ${about}`, style.width, 2), ...twoColumns(rows, style.width)].join('\n');
  });
  return `${blocks.join('\n\n')}\n`;
}
