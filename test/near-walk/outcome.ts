// What a near-field walk's answer is worth against what was planted.
import { type NearWalk, nearWalk as simulatedWalk } from '../../src/practice/near-field/render-near-takes.ts';
import type { NearWalkAnswer } from '../../src/wiring/near-walk.ts';

export interface NearOutcome {
  places: number;
  /**
   * alone: every explanation does to the car what was planted; among: one of several does; part: what is named was
   * planted, but not all of it is named; open: none of that, and all as planned is not excluded; wrong: faults are named
   * that were not planted.
   */
  named: 'alone' | 'among' | 'part' | 'open' | 'wrong';
  /** Places said to differ that are as planned. */
  falsePlaces: string[];
  /** Places that nothing is said of. */
  openPlaces: number;
  /** Places fed from half an octave and more below their high-pass that no stop names, and stops without that. */
  missedStops: string[];
  falseStops: string[];
}

/** What faults do, in a form to compare: which output feeds a place with which sign. */
const effectOf = (walk: NearWalk, faults: readonly string[]): string =>
  JSON.stringify(
    simulatedWalk(walk.truth.seed, faults).truth.places.map(({ output, left, right }) =>
      left === 0 && right === 0 ? 'silent' : [output, left, right],
    ),
  );

type FedPlace = NearWalk['truth']['places'][number];

function soundsAlike(one: FedPlace, two: FedPlace): boolean {
  const silent = ({ left, right }: FedPlace) => left === 0 && right === 0;
  if (silent(one) || silent(two)) return silent(one) && silent(two);
  return one.output === two.output && one.left === two.left && one.right === two.right;
}

export function outcomeOf(walk: NearWalk, answer: NearWalkAnswer): NearOutcome {
  const truth = effectOf(walk, walk.truth.faults);
  const effects = answer.explanations.map(({ faults }) => effectOf(walk, faults));
  const right = effects.filter((effect) => effect === truth).length;
  const open = answer.explanations.length === 0 || answer.explanations.some(({ faults }) => faults.length === 0);
  const planned = simulatedWalk(walk.truth.seed, []).truth.places;
  // What a place is said to be fed, by some explanation, must be what it is fed or what it should be.
  const part = answer.explanations.some(({ faults }) => {
    const said = simulatedWalk(walk.truth.seed, faults).truth.places;
    return said.every((place, index) =>
      [walk.truth.places[index], planned[index]].some((other) => soundsAlike(place, other)),
    );
  });
  const fed = walk.truth.places.map((place, index) => ({
    ...place,
    asPlanned:
      place.left === planned[index].left &&
      place.right === planned[index].right &&
      (place.output === planned[index].output || (place.left === 0 && place.right === 0)),
  }));
  const outputs = walk.plan.outputs;
  const inDanger = fed
    .filter(({ place, output, left, right: other }) => {
      const own = outputs.find((planned) => planned.place === place)?.highPass?.fHz;
      const feeding = outputs.find(({ id }) => id === output);
      if (own === undefined || !feeding || (left === 0 && other === 0)) return false;
      return (feeding.highPass?.fHz ?? 20) < own * Math.SQRT1_2;
    })
    .map(({ place }) => place);
  const stops = answer.findings.map(({ place }) => place);
  return {
    places: outputs.length,
    named: right > 0 ? (right === effects.length ? 'alone' : 'among') : open ? 'open' : part ? 'part' : 'wrong',
    falsePlaces: answer.places
      .filter(({ place, verdict }) => verdict === 'differs' && fed.some((one) => one.place === place && one.asPlanned))
      .map(({ place }) => place),
    openPlaces: outputs.length - answer.places.filter(({ verdict }) => verdict !== 'cannot-say').length,
    missedStops: inDanger.filter((place) => !stops.includes(place)),
    falseStops: stops.filter((place) => !inDanger.includes(place)),
  };
}
