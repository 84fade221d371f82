// The sentences of the near walk.
import { fixedText, frequencyText, type NumberStyle, signedText } from '../../charts/number-words.ts';
import type { JobNearWalk } from '../../job/near-walk/job-near-walk.ts';
import type { FoundBand } from '../../measurement/near-field/found-band.ts';
import { allListed } from '../../plan/words.ts';
import type { NearPlan, NearPlanOutput } from '../../wiring/near-plan.ts';
import type { NearPlaceAnswer } from '../../wiring/near-walk.ts';
import type { Severity } from '../parts/Severity.tsx';
import { countWords } from '../shop/job-words.ts';

export interface RowVerdict {
  severity: Severity;
  word: string;
}

/** A verdict in two or three words. */
export function verdictOf(plan: NearPlan, told: NearPlaceAnswer, danger: boolean): RowVerdict {
  const { verdict, channel, side, polarity, place } = told;
  const own = plan.outputs.find((output) => output.place === place);
  if (danger) return { severity: 'stop', word: 'gets too low' };
  if (verdict === 'cannot-say') return { severity: 'note', word: 'cannot say' };
  if (verdict === 'as-planned') return { severity: 'ok', word: 'as planned' };
  if (channel === null || side === 'none') return { severity: 'stop', word: 'silent' };
  if (channel !== own?.id) return { severity: 'stop', word: `plays ${channel}` };
  if (polarity.againstPlan === -1) return { severity: 'stop', word: 'pulls' };
  return { severity: 'stop', word: side === 'left' || side === 'right' ? `plays the ${side} side` : 'differs' };
}

/** The sentence that the screen opens with. */
export function nearSentence(plan: NearPlan, walk: JobNearWalk | null, reading: boolean): string {
  const places = plan.outputs.length;
  if (walk === null || walk.places.length === 0) {
    if (reading) return 'Reading what was recorded.';
    return `Hold the microphone 3 to 5 cm before each of ${countWords(places, 'cone', 'cones').toLowerCase()}: everything plays, nothing is muted.`;
  }
  const endangered = new Set(walk.findings.map(({ place }) => place));
  if (endangered.size > 0) {
    return `Stop: ${allListed([...endangered])} ${endangered.size === 1 ? 'gets' : 'get'} what can destroy ${endangered.size === 1 ? 'it' : 'them'}.`;
  }
  const right = walk.places.filter(({ verdict }) => verdict === 'as-planned').length;
  const wrong = walk.places.filter(({ verdict }) => verdict === 'differs');
  const verb = right === 1 ? 'plays' : 'play';
  const first = `${countWords(right, 'place', 'places').replace(/ places?$/, '')} of ${countWords(places, 'place', 'places').toLowerCase()} ${verb} as planned.`;
  const rest = wrong.map((told) => `${told.place} ${inSentence(verdictOf(plan, told, false).word)}`);
  const said =
    rest.length === 0
      ? ''
      : ` ${rest.length > 3 ? `${countWords(rest.length, 'differs', 'differ')}` : rest.join(', ')}.`;
  return `${first}${said}`;
}

const inSentence = (word: string): string => (word === 'silent' ? 'is silent' : word);

const sides = { left: 'left', right: 'right', both: 'both sides', none: 'neither side' } as const;

/** Which side a channel is planned to play. */
export function plannedSide({ in1, in2 }: Pick<NearPlanOutput, 'in1' | 'in2'>): 'left' | 'right' | 'both' {
  if (in1 !== 0 && in2 !== 0) return 'both';
  return in1 !== 0 ? 'left' : 'right';
}

export function sideSentence(side: NearPlaceAnswer['side'], planned: 'left' | 'right' | 'both'): string {
  return `Heard: ${side === null ? 'cannot say' : sides[side]}. Planned: ${sides[planned]}.`;
}

/** One end of a band: "1.58 kHz / 12". */
export interface EdgeFigure {
  end: 'from' | 'to';
  fHz: number | null;
  slopeDb: number | null;
  atLeast: boolean;
  /** Stands beside it where it is another by more than half an octave. */
  planned: string | null;
}

const halfOctave = Math.SQRT2;

function edgeFigure(
  end: EdgeFigure['end'],
  planned: NearPlanOutput['highPass'],
  found: FoundBand,
  style: NumberStyle,
): EdgeFigure | null {
  const [fitted, fHz, slope, atLeast] =
    end === 'from'
      ? [found.highPass, found.lowHz, found.lowSlopeDbPerOctave, found.lowSlopeAtLeast]
      : [found.lowPass, found.highHz, found.highSlopeDbPerOctave, found.highSlopeAtLeast];
  if (planned === null && fitted === null) return null;
  const cornerHz = fitted?.fHz ?? fHz;
  const slopeDb = fitted === null ? slope : 6 * fitted.order;
  const ratio = planned === null || cornerHz === null ? 1 : cornerHz / planned.fHz;
  // A fall that no filter was fitted to may be the driver's own.
  const other = fitted !== null && (ratio > halfOctave || ratio < 1 / halfOctave);
  return {
    end,
    fHz: cornerHz,
    slopeDb,
    atLeast: fitted === null && atLeast,
    planned: planned !== null && other ? `${frequencyText(planned.fHz, style)} / ${6 * planned.order}` : null,
  };
}

export function edgeFigures(output: NearPlanOutput, found: FoundBand | null, style: NumberStyle): EdgeFigure[] {
  if (found === null) return [];
  return [edgeFigure('from', output.highPass, found, style), edgeFigure('to', output.lowPass, found, style)].flatMap(
    (figure) => figure ?? [],
  );
}

/** "2.5 kHz / 24", "80 Hz / 12 or more", "hidden" where its neighbours hide it. */
export function edgeText({ fHz, slopeDb, atLeast }: EdgeFigure, style: NumberStyle): string {
  if (fHz === null) return 'hidden';
  const slope = slopeDb === null ? '' : ` / ${fixedText(slopeDb, 0, style)}${atLeast ? '+' : ''}`;
  return `${frequencyText(fHz, style)}${slope}`;
}

const rangeWords = (from: number | null, to: number | null, style: NumberStyle): string => {
  if (from === null && to === null) return 'everything';
  if (to === null) return `from ${frequencyText(from as number, style)} up`;
  return from === null
    ? `up to ${frequencyText(to, style)}`
    : `${frequencyText(from, style)} to ${frequencyText(to, style)}`;
};

/** What the band row shows, for who does not see it. */
export function bandSentence(output: NearPlanOutput, found: FoundBand | null, style: NumberStyle): string {
  const planned = `Planned: ${rangeWords(output.highPass?.fHz ?? null, output.lowPass?.fHz ?? null, style)}.`;
  if (found === null) return `${planned} Found: it stands out nowhere.`;
  const figures = edgeFigures(output, found, style);
  const edge = (end: EdgeFigure['end']) => figures.find((figure) => figure.end === end);
  const words = (['from', 'to'] as const).flatMap((end) => {
    const figure = edge(end);
    if (figure === undefined) return [];
    if (figure.fHz === null) return [`where it ${end === 'from' ? 'begins' : 'ends'} is hidden by its neighbours`];
    const slope =
      figure.slopeDb === null
        ? ''
        : `, ${figure.atLeast ? 'at least ' : ''}${fixedText(figure.slopeDb, 0, style)} dB per octave`;
    return [`${end} ${frequencyText(figure.fHz, style)}${slope}`];
  });
  return `${planned} Found: ${words.length === 0 ? 'everything' : words.join('; ')}.`;
}

/** How loud a place is against the one that mirrors it. */
export interface LevelFigure {
  against: string;
  differenceDb: number;
  /** More than 3 dB apart: look at gain, at how coils are wired, at the distance. */
  apart: boolean;
}

const apartDb = 3;

export function levelFigure(
  plan: NearPlan,
  told: NearPlaceAnswer,
  all: readonly NearPlaceAnswer[],
): LevelFigure | null {
  const own = plan.outputs.find(({ place }) => place === told.place);
  if (own === undefined || plannedSide(own) === 'both' || told.levelDb === null) return null;
  const alike = plan.outputs.filter(
    (output) =>
      output.kind === own.kind &&
      plannedSide(output) !== 'both' &&
      plannedSide(output) !== plannedSide(own) &&
      output.highPass?.fHz === own.highPass?.fHz &&
      output.lowPass?.fHz === own.lowPass?.fHz,
  );
  const partner = alike.length === 1 ? all.find(({ place }) => place === alike[0].place) : undefined;
  if (partner === undefined || partner.levelDb === null) return null;
  const differenceDb = told.levelDb - partner.levelDb;
  return { against: partner.place, differenceDb, apart: Math.abs(differenceDb) > apartDb };
}

export const levelText = ({ differenceDb }: LevelFigure, style: NumberStyle): string =>
  `${signedText(differenceDb, 1, style)} dB`;

/** What a long recording holds does not fit the list. */
export function stopsSentence(plays: readonly { startS: number }[], places: number, open: number): string {
  const clock = (timeS: number) => `${Math.floor(timeS / 60)}:${String(Math.floor(timeS % 60)).padStart(2, '0')}`;
  const begun = plays.length === 0 ? '' : `, begun at ${plays.map(({ startS }) => clock(startS)).join(', ')}`;
  const holds = countWords(plays.length, 'whole play', 'whole plays').toLowerCase();
  const list = countWords(places, 'place', 'places').toLowerCase();
  const still =
    open === places || open === 0 ? '' : `, ${countWords(open, 'of them is', 'of them are').toLowerCase()} still open`;
  return `The recording holds ${holds} of the track${begun}; the list has ${list}${still}.`;
}
