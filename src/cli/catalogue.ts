// The commands by name. Each is loaded when it is called, so that help and a typing error cost almost nothing.
import type { Command } from './command.ts';

interface CatalogueEntry {
  name: string;
  /** The command's own summary, here too so that the list needs no loading; a test holds the two together. */
  summary: string;
  load: () => Promise<{ command: Command }>;
}

/** In the order in which a job needs them. */
export const catalogue: CatalogueEntry[] = [
  {
    name: 'track',
    summary: 'write a test track and, beside it, the description that reads it back',
    load: () => import('./commands/track.ts'),
  },
  {
    name: 'read',
    summary: 'read one take: what the recording is worth, response, arrival, polarity, distortion',
    load: () => import('./commands/read.ts'),
  },
  {
    name: 'compute',
    summary: 'one everyday calculation of a topic; without a topic it lists the topics',
    load: () => import('./commands/compute.ts'),
  },
  {
    name: 'impedance',
    summary: 'read a sweep through a known resistor: resonance, Qs and resistance of a driver, against its plan',
    load: () => import('./commands/impedance.ts'),
  },
  {
    name: 'source',
    summary:
      'read the outputs of a factory source at two or three volumes: shape, corners, delay, phase, and what can be undone',
    load: () => import('./commands/source.ts'),
  },
  {
    name: 'hands-free',
    summary: 'read a call recorded at its far end: does the car send back what was said to it, how late and how loud',
    load: () => import('./commands/hands-free.ts'),
  },
  {
    name: 'walk',
    summary: 'explain what was heard in a channel walk by the fewest wiring faults',
    load: () => import('./commands/walk.ts'),
  },
  {
    name: 'nearwalk',
    summary: 'read one take close to each driver: side, band, polarity, and what is wired wrongly',
    load: () => import('./commands/nearwalk.ts'),
  },
  {
    name: 'noise',
    summary: 'hunt whine, hum, hiss and pops: what they come from, where they enter, and the test that comes next',
    load: () => import('./commands/noise.ts'),
  },
  {
    name: 'job',
    summary:
      'jobs: new, list, show, append, plan, leads, labels, fuses, hold-points, cover, evidence, attach, check-in, gains, settings, export, import, verify',
    load: () => import('./commands/job.ts'),
  },
  {
    name: 'serve',
    summary: 'the app in a browser on this computer, with its jobs in one data folder',
    load: () => import('./commands/serve.ts'),
  },
  {
    name: 'practice',
    summary: 'render takes of a simulated car with planted faults, the truth beside them',
    load: () => import('./commands/practice.ts'),
  },
  {
    name: 'schema',
    summary: "print the JSON Schema of a command's input or output",
    load: () => import('./commands/schema.ts'),
  },
];
