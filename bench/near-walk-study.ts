// How often a near-field walk names what was planted: npx tsx bench/near-walk-study.ts [FIRST [LAST [SNR]]]
import { nearTake } from '../src/measurement/near-field/near-take.ts';
import { renderNearTakes, nearWalk as simulatedWalk } from '../src/practice/near-field/render-near-takes.ts';
import { recordingFromArrays } from '../src/signals/recording.ts';
import { designTrack } from '../src/signals/track-design/design-track.ts';
import { nearPlanSchema } from '../src/wiring/near-plan.ts';
import { nearWalk } from '../src/wiring/near-walk.ts';
import { type NearOutcome, outcomeOf } from '../test/near-walk/outcome.ts';

const [first = 0, last = 199, snrDb = 20] = process.argv.slice(2).map(Number);
const designed = designTrack({ kind: 'near', rateHz: 48_000, stimulusS: 2 });
if (!designed.ok) throw new Error(designed.issues[0].message);
const track = designed.value;

const rows = new Map<number, NearOutcome[]>();
for (let seed = first; seed <= last; seed++) {
  const faults = seed % 4;
  const walk = simulatedWalk(seed, faults);
  const takes = renderNearTakes({ walk, track, snrDb });
  const answer = nearWalk(
    nearPlanSchema.parse(walk.plan),
    new Map(
      takes.map((take) => [take.place, nearTake(recordingFromArrays([take.samples], take.rateHz, 2 ** -23), track)]),
    ),
  );
  const outcome = outcomeOf(walk, answer);
  rows.set(faults, [...(rows.get(faults) ?? []), outcome]);
  if (outcome.named !== 'alone' || outcome.falsePlaces.length > 0 || outcome.falseStops.length > 0) {
    const got = answer.explanations.slice(0, 4).map(({ faults: set }) => set.join(' + '));
    process.stderr.write(
      `${seed} ${outcome.named} planted [${walk.truth.faults.join(', ')}] got ${answer.explanations.length}: ${got.join(' | ')} false ${outcome.falsePlaces.join()} stops ${outcome.falseStops.join()}\n`,
    );
  }
}

const count = (all: NearOutcome[], test: (one: NearOutcome) => boolean) => all.filter(test).length;
const lines = [
  `| faults, ${snrDb} dB | cars | named alone | named among ties | named in part | not named | other faults named | places accused falsely | places open | stops missed | false stops |`,
  '| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |',
];
for (const [faults, all] of [...rows].sort(([a], [b]) => a - b)) {
  const places = all.reduce((sum, { places: n }) => sum + n, 0);
  const sum = (of: (one: NearOutcome) => number) => all.reduce((total, one) => total + of(one), 0);
  lines.push(
    `| ${[
      faults,
      all.length,
      count(all, ({ named }) => named === 'alone'),
      count(all, ({ named }) => named === 'among'),
      count(all, ({ named }) => named === 'part'),
      count(all, ({ named }) => named === 'open'),
      count(all, ({ named }) => named === 'wrong'),
      `${sum(({ falsePlaces }) => falsePlaces.length)} of ${places}`,
      `${sum(({ openPlaces }) => openPlaces)} of ${places}`,
      sum(({ missedStops }) => missedStops.length),
      sum(({ falseStops }) => falseStops.length),
    ].join(' | ')} |`,
  );
}
process.stdout.write(`${lines.join('\n')}\n`);
