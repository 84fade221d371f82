import { expect, test } from 'vitest';
import { findingsOf } from '../../job/rules/findings.ts';
import { planView } from '../../job/rules/plan-view.ts';
import { changed } from '../../plan/changes.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { loomSentence } from './loom-words.ts';
import { fuseRows, riverOf, runWords } from './power-model.ts';

const plain = { decimal: '.' } as const;
const bare = templatePlan('seven-channel');
const sized = [
  {
    part: 'run' as const,
    id: 'R3',
    value: { id: 'R3', from: 'BLOCK', to: 'B', areaMm2: 6, material: 'copper' as const, lengthM: 0.6 },
  },
  { part: 'fuse' as const, id: 'F3', value: { id: 'F3', run: 'R3', ratedA: 100, family: 'strip-30' as const } },
].reduce(changed, bare);

test('a fuse above its cable is the headline, with both figures', () => {
  const rows = fuseRows(planView(sized), findingsOf(sized).findings);
  const row = rows.find(({ fuse }) => fuse?.id === 'F3');
  expect(row?.verdict).toBe('over');
  // 17 * (0.9 * 6)^0.65 A, times sqrt(55 / 65) for 50 C around 105 C insulation.
  expect(row?.cableA).toBeCloseTo(17 * 5.4 ** 0.65 * Math.sqrt(55 / 65), 6);
  const sentence = loomSentence({ rows, leads: 7, unread: 7, unfit: [], stops: 1 }, plain);
  expect(sentence).toBe('F3 is a 100 A fuse on a 46.8 A cable. Change it before the battery goes back on.');
});

test('what is not known is said so, and an empty plan says where a loom comes from', () => {
  const rows = fuseRows(planView(bare), []);
  expect(rows.map(({ verdict }) => verdict)).toEqual(Array(5).fill('unknown'));
  expect(rows[0].missing).toBe('rating, cable not known');
  const nothing = { rows: [], leads: 0, unread: 0, unfit: [], stops: 0 };
  expect(loomSentence(nothing, plain)).toBe('There is no loom yet. The plan gives it runs and leads.');
  expect(loomSentence({ ...nothing, leads: 7, unread: 2 }, plain)).toBe(
    'Every fuse holds. Two leads wait for the meter.',
  );
});

test('the river shows the run at fault, and says each run in words', () => {
  const view = planView(sized);
  const { nodes, edges } = riverOf(view, findingsOf(sized).findings, plain);
  expect(nodes.map(({ name }) => name)).toEqual(['Battery', 'Block', 'Amp A', 'Amp B', 'Amp C', 'Processor']);
  expect(edges.find(({ id }) => id === 'R3')).toMatchObject({ bad: true, label: 'R3  6 mm\u00b2' });
  expect(runWords(view, view.plan.run[2], plain)).toMatch(
    /^R3, block to amp B: 6 mm\u00b2, 0\.6 m\. At full tone [\d.]+ A lose [\d.]+ V in it\.$/,
  );
});
