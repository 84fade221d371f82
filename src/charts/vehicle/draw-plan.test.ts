import { describe, expect, test } from 'vitest';
import { bodyKinds, type SteeringHand, vehicleBodies } from './bodies.ts';
import { planDrawing } from './draw-plan.ts';
import { placesBehind, planLayout } from './layout.ts';

const hands: SteeringHand[] = ['left', 'right'];
const everyPlan = bodyKinds.flatMap((kind) => hands.map((hand) => ({ kind, hand })));

describe.each(everyPlan)('the plan of a $kind with the wheel on the $hand', ({ kind, hand }) => {
  const body = vehicleBodies[kind];
  const layout = planLayout(body, hand);

  test('letters its covers down the left, then down the right, without the letter I', () => {
    const letters = layout.covers.map(({ id }) => id).join('');
    expect('ABCDEFGHJKLM'.startsWith(letters)).toBe(true);
    for (const side of [-1, 1]) {
      const down = layout.covers.filter((cover) => cover.side === side).map(({ area }) => area.y);
      expect(down).toEqual([...down].sort((a, b) => a - b));
    }
    const sides = layout.covers.map(({ side }) => side);
    expect(sides).toEqual([...sides].sort((a, b) => a - b));
  });

  test('keeps covers and places within the body', () => {
    for (const { area, name } of layout.covers) {
      expect(area.x, name).toBeGreaterThanOrEqual(-body.widthM / 2);
      expect(area.x + area.widthM, name).toBeLessThanOrEqual(body.widthM / 2);
      expect(area.y + area.lengthM, name).toBeLessThan(body.lengthM);
      expect(area.lengthM, name).toBeGreaterThan(0.1);
    }
    for (const place of layout.places)
      expect(Math.abs(place.x) + place.radiusM, place.name).toBeLessThan(body.widthM / 2);
  });

  test('numbers its places from front to back and the deepest last', () => {
    const shallow = layout.places.filter(({ label }) => label !== 'above').map(({ y }) => Math.round(y * 20));
    expect(shallow).toEqual([...shallow].sort((a, b) => a - b));
    expect(layout.places.at(-1)?.label).toBe('above');
    expect(layout.places.map(({ id }) => id)).toEqual(layout.places.map((_, n) => `P${n + 1}`));
  });

  test('puts the kick panel on the driver\u2019s side', () => {
    const kick = layout.covers.find(({ name }) => name === 'Kick panel');
    expect(Math.sign(kick?.area.x ?? 0)).toBe(hand === 'right' ? 1 : -1);
  });

  test('is drawn with numbers only, and with rings that can be seen', () => {
    const drawing = planDrawing(body, { hand, pxPerM: 40 });
    expect(JSON.stringify(drawing)).not.toMatch(/NaN|null,null|Infinity|undefined/);
    for (const place of drawing.places) expect(place.radiusPx).toBeGreaterThanOrEqual(5.5);
    expect(drawing.shapes.filter(({ role }) => role === 'wheel')).toHaveLength(1);
  });
});

describe('one body with the wheel on either side', () => {
  test('mirrors the covers that follow the driver and keeps the outline', () => {
    const [left, right] = hands.map((hand) => planDrawing(vehicleBodies.sedan, { hand, pxPerM: 90 }));
    const outline = (drawing: typeof left) => drawing.shapes.find(({ role }) => role === 'body')?.d;
    expect(outline(left)).toBe(outline(right));
    expect(left.covers.map(({ name }) => name).sort()).toEqual(right.covers.map(({ name }) => name).sort());
    expect(left.covers.map(({ name }) => name)).not.toEqual(right.covers.map(({ name }) => name));
  });

  test('grows with the scale and with nothing else', () => {
    const at = (pxPerM: number) => planDrawing(vehicleBodies.van, { hand: 'left', pxPerM, padX: 0, padY: 0 });
    expect(at(100).widthPx).toBe(182);
    expect(at(50)).toMatchObject({ widthPx: 91, heightPx: 221 });
  });
});

test('a door card hides the driver in that door, the dash top both tweeters', () => {
  const layout = planLayout(vehicleBodies.coupe, 'right');
  const behind = (name: string) => placesBehind(layout, layout.covers.find((cover) => cover.name === name)?.id ?? '');
  expect(behind('Dash top')).toEqual(['P1', 'P2']);
  expect(behind('Left door card')).toEqual(['P3']);
  expect(behind('Boot floor')).toEqual(['P7']);
  expect(behind('no such cover')).toEqual([]);
});
