// Which part may import which. The list runs from the ground up: an import points to an earlier part, never to a later one.
const parts = [
  'base',
  'plan',
  'signals',
  ['electrical', 'drivers'],
  'measurement',
  'wiring',
  'tuning',
  'practice',
  'charts',
  'job',
  'report',
  'store',
  'server',
  ['web', 'cli'],
].map((part) => [part].flat());
const core = parts
  .slice(
    0,
    parts.findIndex((part) => part.includes('store')),
  )
  .flat();
const folder = (names) => `^src/(${names.join('|')})/`;

/** A part sees itself and what stands before it; parts that share a step do not see each other. */
const arrows = parts.flatMap((step, index) =>
  step.map((part) => ({
    name: `${part}-imports-earlier-parts-only`,
    severity: 'error',
    from: { path: folder([part]) },
    to: { path: '^src/', pathNot: folder([part, ...parts.slice(0, index).flat()]) },
  })),
);

module.exports = {
  forbidden: [
    ...arrows,
    {
      name: 'every-source-has-a-part',
      comment: 'A folder that is not in the list above has no place among the arrows.',
      severity: 'error',
      from: { path: '^src/', pathNot: folder(parts.flat()) },
      to: {},
    },
    { name: 'no-circles', severity: 'error', from: { path: '^src/' }, to: { circular: true } },
    {
      name: 'core-does-no-io',
      comment: 'The core runs in node, in a worker and in a page: nothing of node, nothing that reads the world.',
      severity: 'error',
      from: { path: folder(core) },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'practice-takes-only-the-form-of-a-track',
      comment:
        'The practice bay is the oracle of the readers, so it shares no signal code with them: types of a track, no more.',
      severity: 'error',
      from: { path: '^src/practice/' },
      to: { path: '^src/signals/', pathNot: '^src/signals/track\\.ts$' },
    },
    {
      name: 'practice-takes-types-only',
      severity: 'error',
      from: { path: '^src/practice/' },
      to: { path: '^src/signals/track\\.ts$', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'practice-does-not-know-the-reader',
      severity: 'error',
      from: { path: '^src/practice/' },
      to: { path: '^src/(measurement|wiring|tuning)/' },
    },
    {
      name: 'a-page-knows-the-server-by-its-client',
      severity: 'error',
      from: { path: '^src/web/' },
      to: { path: '^src/server/', pathNot: '^src/server/client\\.ts$' },
    },
    {
      name: 'the-command-line-only-starts-the-server',
      severity: 'error',
      from: { path: '^src/cli/' },
      to: { path: '^src/server/', pathNot: '^src/server/start\\.ts$' },
    },
    {
      name: 'resolvable',
      severity: 'error',
      from: { path: '^src/' },
      to: { couldNotResolve: true },
    },
    {
      name: 'declared-dependencies-only',
      severity: 'error',
      from: { path: '^src/' },
      to: { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown', 'undetermined'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    // Tests stand beside what they test and may import anything.
    exclude: { path: '\\.test\\.ts$' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    // Parts of a package, such as hono/client, are found by what the package exports.
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
