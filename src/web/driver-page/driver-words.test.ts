import { expect, test } from 'vitest';
import { planView } from '../../job/rules/plan-view.ts';
import { changed } from '../../plan/changes.ts';
import type { PartOf } from '../../plan/plan.ts';
import { templatePlan } from '../../plan/templates/templates.ts';
import { driverInSystem, highPassRows, safeHighPass } from './driver-model.ts';
import { driverSentence, gainText, travelText } from './driver-words.ts';

const plain = { decimal: '.' } as const;

/** What the screen opens with for the left kick-panel driver crossed at `hz`, looked at `lookedHz`. */
function saysFor(hz: number | null, lookedHz: number | null): string {
  const plan = templatePlan('seven-channel');
  const channel = plan.channel.find(({ id }) => id === 'C3') as PartOf<'channel'>;
  const highPass = hz === null ? null : { family: 'linkwitz-riley' as const, order: 4, fHz: hz };
  const view = planView(changed(plan, { part: 'channel', id: 'C3', value: { ...channel, highPass } }));
  const system = driverInSystem(view, view.part('driver', 'D3') as PartOf<'driver'>);
  if ('needs' in system) throw new Error(system.needs);
  const [planned, looked] = highPassRows(system, [hz, lookedHz]);
  return driverSentence(system, planned, looked, safeHighPass(system), plain);
}

test('crossed too low it is travel that holds it back, and a higher start gains clean level', () => {
  expect(saysFor(90, 300)).toMatch(
    /^Near \d+ Hz the middle driver is held back by travel\. Starting at 300 Hz, not 90 Hz, gains \d\.\d dB of clean level\.$/,
  );
  expect(saysFor(null, 300)).toContain(' A high-pass at 300 Hz gains ');
});

test('crossed high enough it is not travel, and its high-pass is safe', () => {
  expect(saysFor(300, 300)).toMatch(
    /^The middle driver is held back by (heat|the amplifier), not by travel\. Its high-pass is safe/,
  );
});

test('small travel is said in hundredths, and a gain with its sign', () => {
  expect([travelText(0.352, plain), travelText(4.54, plain)]).toEqual(['0.35 mm', '4.5 mm']);
  expect([gainText(2.41, plain), gainText(-1.6, plain), gainText(0.01, plain)]).toEqual([
    '+2.4 dB',
    '\u22121.6 dB',
    '0 dB',
  ]);
});
