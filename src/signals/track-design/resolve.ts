// From a wish to a design: every rule checked, every default filled in.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { bandIssues, groundIssues, issue, levelIssues, levelsIssues, numberIssues, uselessFields } from './checks.ts';
import {
  highestHz,
  LEVEL_DBFS,
  markerShape,
  stepLevelsDbfs,
  stimulusS,
  UNPROVEN_CENTRE_HZ,
  UNPROVEN_LEVEL_DBFS,
  wholeBandHz,
} from './defaults.ts';
import type { TrackDesign } from './design.ts';
import { usualMarkerSide } from './markers.ts';
import { kindTraits, type TrackRequest } from './request.ts';

const SEED_MAX = 2 ** 32 - 1;
/** A lower or an upper neighbour of a burst's centre: one octave and a half for a known driver, one for an unknown. */
const PROVEN_SPREAD = 2 ** 0.75;
const UNPROVEN_SPREAD = 2 ** 0.5;

/** The band of one output's burst, Hz. */
export function burstBandHz(centreHz: number, provenLeads: boolean): { from: number; to: number } {
  const spread = provenLeads ? PROVEN_SPREAD : UNPROVEN_SPREAD;
  return { from: centreHz / spread, to: centreHz * spread };
}

/**
 * The design that a request asks for.
 *
 * @returns every rule the request breaks, each once and in the order a person would mend them
 */
export function resolvedDesign(request: TrackRequest): Result<TrackDesign> {
  const ground = groundIssues(request);
  if (ground.length > 0) return failure(...ground);
  const { kind, rateHz } = request;
  const whole = wholeBandHz(rateHz);
  const fromHz = request.fromHz ?? Math.min(whole.from, (request.toHz ?? whole.to) / 2);
  const toHz = request.toHz ?? whole.to;
  const provenLeads = kind === 'bursts' && request.tonesHz !== undefined;
  const unproven = kind === 'bursts' && !provenLeads;
  const wantedDbfs = request.levelDbfs ?? topLevel(request) ?? LEVEL_DBFS;
  // Any unproven lead may end on a tweeter, so a louder wish waits until the leads are named; `trackCautions` says so.
  const levelDbfs = unproven && wantedDbfs > UNPROVEN_LEVEL_DBFS ? UNPROVEN_LEVEL_DBFS : wantedDbfs;
  const levelsDbfs = request.levelsDbfs ?? (kind === 'steps' ? stepLevelsDbfs(levelDbfs) : []);
  const side = request.side ?? 'both';
  const markerSide = request.markerSide ?? usualMarkerSide(side);
  const tonesHz = request.tonesHz ?? [unproven ? UNPROVEN_CENTRE_HZ : 1000];
  const outputs = request.outputs ?? (provenLeads ? Math.max(1, tonesHz.length) : 8);
  const pairSweeps =
    kind === 'pair' && [request.fromHz, request.toHz, request.stimulusS].some((value) => value !== undefined);
  const design: TrackDesign = {
    kind,
    rateHz,
    fromHz,
    toHz,
    stimulusS: request.stimulusS ?? stimulusS(kind, rateHz, { from: fromHz, to: toHz }),
    levelDbfs,
    levelsDbfs,
    side,
    markerSide,
    marker: markerShape(request, { fromHz, toHz, side, markerSide, levelDbfs }, levelsDbfs),
    repeats: request.repeats ?? (kind === 'ladder' && request.levelsDbfs === undefined ? 12 : 1),
    seed: request.seed ?? 1,
    tonesHz,
    relation: request.relation ?? 'same',
    outputs,
    pairSweeps,
    provenLeads,
    lowestHz: lowestHz(request, fromHz, tonesHz, provenLeads),
    code: request.code,
  };
  const issues = [
    ...uselessFields(request),
    ...(kindTraits[kind].takes.includes('fromHz') ? bandIssues(fromHz, toHz, rateHz) : []),
    ...levelIssues(kind, 'levelDbfs', wantedDbfs),
    ...levelsIssues(request),
    ...numberIssues('stimulusS', 'the length of a stimulus', request.stimulusS, { min: 0.2, max: 600, unit: 's' }),
    ...numberIssues('repeats', 'the number of repeats', request.repeats, { min: 1, max: 1000, whole: true }),
    ...numberIssues('seed', 'the seed', request.seed, { min: 0, max: SEED_MAX, whole: true }),
    ...numberIssues('code', 'the track code', request.code, { min: 0, max: 255, whole: true }),
    ...numberIssues('outputs', 'the number of outputs', request.outputs, { min: 1, max: 32, whole: true }),
    ...toneIssues(design, request),
    ...sideIssues(design),
    ...markerIssues(request, design),
    ...burstIssues(design),
  ];
  return issues.length > 0 ? failure(...issues) : success(design);
}

function topLevel(request: TrackRequest): number | undefined {
  const levels = request.levelsDbfs;
  return levels === undefined || levels.length === 0 ? undefined : Math.max(...levels);
}

function lowestHz(request: TrackRequest, fromHz: number, tonesHz: readonly number[], provenLeads: boolean): number {
  if (kindTraits[request.kind].takes.includes('fromHz')) return fromHz;
  const lowest = Math.min(...tonesHz);
  return request.kind === 'bursts' ? burstBandHz(lowest, provenLeads).from : lowest;
}

function toneIssues(design: TrackDesign, request: TrackRequest): Issue[] {
  const tones = request.tonesHz;
  if (tones === undefined) return [];
  if (tones.length < 1 || tones.length > 32) {
    return [issue('tones-count', 'tonesHz', `1 to 32 tones make a track, got ${tones.length}`, 'Give fewer tones.')];
  }
  const top = highestHz(design.rateHz);
  // A burst reaches beyond the tone it is built around, and its last blip a fifth beyond that.
  const max = design.kind === 'bursts' ? Math.floor(top / PROVEN_SPREAD) : top;
  const min = design.kind === 'bursts' ? 20 : 6;
  return tones.flatMap((fHz) => numberIssues('tonesHz', 'a tone', fHz, { min, max, unit: 'Hz' })).slice(0, 1);
}

function sideIssues(design: TrackDesign): Issue[] {
  const issues: Issue[] = [];
  const { kind, side, markerSide, relation } = design;
  const inTurn = kind === 'near' || kind === 'pair';
  if (inTurn && side !== 'both') {
    const message = `a ${kind} track plays the left and the right side one after the other, got side ${side}`;
    issues.push(issue('needs-both-sides', 'side', message, 'Leave the side out.'));
  }
  if (inTurn && side === 'both' && markerSide !== 'both' && markerSide !== 'none') {
    const message = `a ${kind} track needs its markers on both sides, got ${markerSide}`;
    issues.push(issue('markers-need-both-sides', 'markerSide', message, 'Leave the side of the markers out.'));
  }
  if (kind === 'pair' && markerSide === 'none' && !design.pairSweeps) {
    const message = 'a pair track without markers needs a sweep on each side';
    issues.push(
      issue('nothing-to-play', 'markerSide', message, 'Give the band of the two drivers, or keep the markers.'),
    );
  }
  if (kind === 'noise' && side !== 'both' && relation !== 'same') {
    const message = `noise on the ${side} side alone cannot be ${relation} between the sides`;
    issues.push(issue('relation-needs-both-sides', 'relation', message, 'Play both sides, or leave the relation out.'));
  }
  return issues;
}

function markerIssues(request: TrackRequest, design: TrackDesign): Issue[] {
  const band = request.markerBandHz;
  if (band === undefined) return [];
  const top = highestHz(design.rateHz);
  if (!(band.from >= 100 && band.to <= top)) {
    const message = `markers must lie within 100 to ${top} Hz, got ${band.from} to ${band.to} Hz`;
    return [issue('marker-band', 'markerBandHz', message, 'A tweeter plays 4000 to 12000 Hz, a mid 500 to 3000 Hz.')];
  }
  if (!(band.to >= 2 * band.from)) {
    const message = `markers must span an octave at least, got ${band.from} to ${band.to} Hz`;
    return [issue('marker-band', 'markerBandHz', message, 'Narrow markers time badly: widen the band.')];
  }
  return [];
}

function burstIssues(design: TrackDesign): Issue[] {
  if (design.kind !== 'bursts') return [];
  const { tonesHz, outputs } = design;
  if (tonesHz.length !== 1 && tonesHz.length !== outputs) {
    const message = `${outputs} outputs need one tone each, or one for all; got ${tonesHz.length}`;
    return [issue('tones-count', 'tonesHz', message, 'Give one tone per output, in the order of the outputs.')];
  }
  return [];
}
