// The schemas by name. What each says is loaded when it is asked for.

interface SchemaEntry {
  name: string;
  about: string;
  jsonSchema: () => Promise<object>;
}

export const schemaCatalogue: SchemaEntry[] = [
  {
    name: 'track',
    about: 'the description beside a test track, F.track.json: output of track, input of read',
    jsonSchema: async () => (await import('./json-schema.ts')).trackJsonSchema(),
  },
  {
    name: 'read',
    about: 'the answer of read --json',
    jsonSchema: async () => (await import('./json-schema.ts')).readJsonSchema(),
  },
  {
    name: 'impedance',
    about: 'the answer of impedance --json',
    jsonSchema: async () => (await import('./impedance.ts')).impedanceJsonSchema(),
  },
  {
    name: 'source',
    about: 'the answer of source --json',
    jsonSchema: async () => (await import('./source.ts')).sourceJsonSchema(),
  },
  {
    name: 'hands-free',
    about: 'the answer of hands-free --json',
    jsonSchema: async () => (await import('./hands-free.ts')).handsFreeJsonSchema(),
  },
  {
    name: 'walk',
    about: 'what walk takes: the plan of the channels, and what was heard',
    jsonSchema: async () => (await import('./walk.ts')).walkJsonSchema(),
  },
  {
    name: 'nearwalk-plan',
    about: 'the plan of the channels that nearwalk takes: outputs with amp, place, kind, polarity and filters',
    jsonSchema: async () => (await import('./near-walk.ts')).nearPlanJsonSchema(),
  },
  {
    name: 'nearwalk',
    about: 'the answer of nearwalk --json',
    jsonSchema: async () => (await import('./near-walk.ts')).nearWalkJsonSchema(),
  },
  {
    name: 'noise',
    about: 'the answer of noise --json',
    jsonSchema: async () => (await import('./noise.ts')).noiseJsonSchema(),
  },
  {
    name: 'wish',
    about: 'one wish, as job append takes it',
    jsonSchema: async () => (await import('./job.ts')).wishJsonSchema(),
  },
  {
    name: 'entry',
    about: 'one entry of a journal, as job show --entries --json and entries.jsonl of an archive have it',
    jsonSchema: async () => (await import('./job.ts')).entryJsonSchema(),
  },
  {
    name: 'job',
    about: 'the "job" in the answer of job show --json',
    jsonSchema: async () => (await import('./job.ts')).jobStateJsonSchema(),
  },
  {
    name: 'plan',
    about: 'a plan in a file, as job plan check --plan and job plan set --plan take it',
    jsonSchema: async () => (await import('./job.ts')).planJsonSchema(),
  },
  {
    name: 'plan-check',
    about: 'the answer of job plan check --json',
    jsonSchema: async () => (await import('./job.ts')).planCheckJsonSchema(),
  },
  {
    name: 'leads',
    about: 'the answer of job leads --json',
    jsonSchema: async () => (await import('./job.ts')).leadsJsonSchema(),
  },
  {
    name: 'fuses',
    about: 'the answer of job fuses --json',
    jsonSchema: async () => (await import('./job.ts')).fusesJsonSchema(),
  },
  {
    name: 'hold-points',
    about: 'the answer of job hold-points --json',
    jsonSchema: async () => (await import('./hold-points.ts')).holdPointsJsonSchema(),
  },
  {
    name: 'cover',
    about: 'the answer of job cover --json',
    jsonSchema: async () => (await import('./hold-points.ts')).coverJsonSchema(),
  },
  {
    name: 'evidence',
    about: 'the answer of job evidence --json',
    jsonSchema: async () => (await import('./hold-points.ts')).evidenceJsonSchema(),
  },
  {
    name: 'attached',
    about: 'the answer of job attach --json',
    jsonSchema: async () => (await import('./hold-points.ts')).attachedJsonSchema(),
  },
  {
    name: 'check-in',
    about: 'the answer of job check-in --json',
    jsonSchema: async () => (await import('./check-in.ts')).checkInJsonSchema(),
  },
  {
    name: 'gains',
    about: 'the answer of job gains --json',
    jsonSchema: async () => (await import('./hold-points.ts')).gainsJsonSchema(),
  },
  {
    name: 'settings',
    about: 'the answer of job settings --json',
    jsonSchema: async () => (await import('./hold-points.ts')).settingsJsonSchema(),
  },
  {
    name: 'verification',
    about: 'the answer of job verify --json',
    jsonSchema: async () => (await import('./job.ts')).verificationJsonSchema(),
  },
  {
    name: 'error',
    about: 'what any command prints with --json when it ends with status 2 or 3',
    jsonSchema: async () => (await import('./json-schema.ts')).errorJsonSchema(),
  },
];
