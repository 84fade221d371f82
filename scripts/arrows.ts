// Checks which part imports which. Says so when it saw nothing, because then it proved nothing.
import { relative, resolve } from 'node:path';
import { cruise } from 'dependency-cruiser';
import extractConfig from 'dependency-cruiser/config-utl/extract-depcruise-config';
import extractTypeScriptConfig from 'dependency-cruiser/config-utl/extract-ts-config';

const root = resolve(process.argv[2] ?? '.');
const rules = await extractConfig(resolve('.dependency-cruiser.cjs'));
const types = extractTypeScriptConfig(resolve('tsconfig.json'));
const { output } = await cruise(
  ['src'],
  { ...rules.options, baseDir: root, ruleSet: rules, validate: true },
  undefined,
  {
    tsConfig: types,
  },
);
if (typeof output === 'string') throw new Error('the arrows come as data, not as text');

const own = output.modules.filter((module) => module.source.startsWith('src/'));
const broken = output.summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`);
for (const line of broken) process.stdout.write(`${line}\n`);
if (own.length === 0) process.stdout.write(`no module seen under ${relative('.', root) || '.'}/src\n`);
process.stdout.write(`${own.length} modules, ${broken.length} arrows broken\n`);
process.exitCode = own.length === 0 || broken.length > 0 ? 1 : 0;
