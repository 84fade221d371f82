// A recorder that runs on while the microphone goes from driver to driver: each play is found and says what its own take says.
import { expect, test } from 'vitest';
import { gauss } from '../../src/base/random.ts';
import { nearTake } from '../../src/measurement/near-field/near-take.ts';
import { playsIn } from '../../src/measurement/near-field/plays-in.ts';
import { renderNearTakes, nearWalk as simulatedWalk } from '../../src/practice/near-field/render-near-takes.ts';
import { recordingFromArrays } from '../../src/signals/recording.ts';
import { designTrack } from '../../src/signals/track-design/design-track.ts';
import { nearPlanSchema } from '../../src/wiring/near-plan.ts';
import { nearWalk } from '../../src/wiring/near-walk.ts';

const RATE_HZ = 32_000;
const walk = simulatedWalk(301, 1);
const designed = designTrack({ kind: 'near', rateHz: RATE_HZ, stimulusS: 1 });
if (!designed.ok) throw new Error(designed.issues[0].message);
const track = designed.value;
const takes = renderNearTakes({ walk, track, snrDb: 20, recorder: { rateHz: RATE_HZ } });

/** Sound of a hand that carries a microphone: soft noise with knocks. */
function carried(seconds: number, seed: number): Float64Array {
  return Float64Array.from({ length: Math.round(seconds * RATE_HZ) }, (_, i) => {
    const knock = Math.exp(-((i % 9000) / 400));
    return gauss(seed, i) * (0.0004 + 0.02 * knock);
  });
}

function joined(parts: Float64Array[]): Float64Array {
  const out = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** All takes one behind the other, with what was recorded on the way to each. */
const long = joined(takes.flatMap(({ samples }, i) => [carried(1 + 0.7 * i, i), samples]));
const recording = recordingFromArrays([long], RATE_HZ, 2 ** -23);

test('every stop is found where it is, in order', () => {
  const plays = playsIn(recording, track);
  expect(plays.length).toBe(takes.length);
  let fromS = 0;
  takes.forEach(({ samples }, i) => {
    fromS += 1 + 0.7 * i;
    // The recorder of each take ran some while before the track.
    expect(plays[i].startS).toBeGreaterThan(fromS - 0.02);
    fromS += samples.length / RATE_HZ;
    expect(plays[i].startS + track.durationS).toBeLessThan(fromS + 0.01);
  });
}, 120_000);

test('the walk ends as it does with one take for each driver', () => {
  const plan = nearPlanSchema.parse(walk.plan);
  const apart = new Map(
    takes.map(({ place, samples }) => [place, nearTake(recordingFromArrays([samples], RATE_HZ, 2 ** -23), track)]),
  );
  const plays = playsIn(recording, track);
  const together = new Map(takes.map(({ place }, i) => [place, nearTake(plays[i].recording, track)]));
  const [one, other] = [nearWalk(plan, apart), nearWalk(plan, together)];
  expect(other.explanations).toEqual(one.explanations);
  expect(other.places.map(({ place, verdict, side }) => [place, verdict, side])).toEqual(
    one.places.map(({ place, verdict, side }) => [place, verdict, side]),
  );
}, 120_000);

test('a play that was broken off is none, and neither is noise', () => {
  const broken = takes[0].samples.subarray(0, Math.round(0.6 * takes[0].samples.length));
  const again = recordingFromArrays([joined([broken, carried(4, 1), takes[0].samples])], RATE_HZ, 2 ** -23);
  const [play, ...more] = playsIn(again, track);
  expect(more).toEqual([]);
  expect(play.startS).toBeGreaterThan(broken.length / RATE_HZ + 3.9);
  expect(playsIn(recordingFromArrays([carried(20, 2)], RATE_HZ), track)).toEqual([]);
}, 120_000);
