import { expect, test } from 'vitest';
import { planView } from '../../job/rules/plan-view.ts';
import { changed } from '../../plan/changes.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { leadRows } from './lead-rows.ts';

const plain = { decimal: '.' } as const;
const seven = templatePlan('seven-channel');
const read = (lead: string, value: number | 'open') =>
  leadRows(
    planView(
      changed(seven, { part: 'reading', id: 'M1', value: { id: 'M1', of: lead, quantity: 'resistance', value } }),
    ),
    plain,
  ).find((row) => row.lead.id === lead);

test('a lead says what it joins and what the meter should read: two coils of 3.5 ohm in series, ten percent either way', () => {
  const sub = leadRows(planView(seven), plain).find(({ lead }) => lead.id === 'L17');
  expect(sub).toMatchObject({ from: 'C1', to: 'Boot', driver: 'Quern S10', under: 'Boot floor', fits: null });
  expect(sub?.expects).toBe('6.3 to 7.7');
});

test('7.1 ohm is the sub as planned; 3.5 is a coil too few, and 1.8 both side by side', () => {
  expect(read('L17', 7.1)).toMatchObject({ fits: true, says: 'As planned.' });
  expect(read('L17', 1.8)).toMatchObject({ fits: false, says: 'It looks like all coils side by side.' });
  expect(read('L17', 'open')?.fits).toBe(false);
});

test('a reading that nothing explains says so', () => {
  expect(read('L11', 60)).toMatchObject({ fits: false, says: 'It reads like no single mistake.' });
});

test('a reading that no longer counts is to be taken again', () => {
  const plan = changed(seven, {
    part: 'reading',
    id: 'M1',
    value: { id: 'M1', of: 'L17', quantity: 'resistance', value: 7.1 },
  });
  const row = leadRows(planView(plan), plain, ['M1']).find(({ lead }) => lead.id === 'L17');
  expect(row?.reading).toBeUndefined();
  expect(row).toMatchObject({ fits: null, says: 'It was read before the plan changed: read it again.' });
});
