// `nearwalk`: one take close to each driver while everything plays: what each is fed, and what is wired wrongly.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { type NearTake, nearTake } from '../../measurement/near-field/near-take.ts';
import { type Play, playsIn } from '../../measurement/near-field/plays-in.ts';
import type { TrackDescription } from '../../signals/track.ts';
import { type NearPlan, nearPlanContradictions, nearPlanSchema } from '../../wiring/near-plan.ts';
import { nearWalk } from '../../wiring/near-walk.ts';
import type { Command, CommandContext, CommandOutcome } from '../command.ts';
import { readJsonFile } from '../json-file.ts';
import { nearWalkText } from '../near-walk-text.ts';
import { nearestWord } from '../nearest-word.ts';
import { readTrackFile } from '../track-file.ts';
import { openWavFile } from '../wav-file.ts';

const CALL = 'kickpanel nearwalk --plan PLAN.json --track F.track.json "front left tweeter=a.wav" "sub=b.wav"';

/** A recording and where it was made; with several places it holds a stop at each, null for one to leave out. */
interface NamedTake {
  places: (string | null)[];
  file: string;
}

/** Stands for a stop that is to be left out. */
const NO_PLACE = '-';

/** A place, or places with commas between; a place whose own name has commas is one. */
function placesNamed(text: string, known: readonly string[]): string[] {
  return known.includes(text) ? [text] : text.split(',').map((name) => name.trim());
}

/** `PLACE=REC.wav` or `PLACE,PLACE=REC.wav`; a place's name may hold anything but the sign itself. */
function namedTakes(operands: string[], { outputs }: NearPlan): Result<NamedTake[]> {
  const known = outputs.map(({ place }) => place);
  const issues: Issue[] = [];
  const takes: NamedTake[] = [];
  const seen = new Set<string>();
  for (const operand of operands) {
    const at = operand.indexOf('=');
    const file = operand.slice(at + 1);
    if (at < 1 || file === '') {
      const message = `"${operand}" is not a place and its recording.`;
      issues.push({ code: 'bad-take', message, where: operand, mend: `Call it as: ${CALL}` });
      continue;
    }
    const names = placesNamed(operand.slice(0, at).trim(), known);
    for (const place of names) {
      if (place === NO_PLACE) continue;
      if (!known.includes(place)) {
        const near = nearestWord(place, known);
        const mend = near === null ? `The plan has: ${known.join(', ')}.` : `Did you mean "${near}"?`;
        issues.push({ code: 'unknown-place', message: `The plan has no place "${place}".`, where: operand, mend });
      } else if (seen.has(place)) {
        const mend = 'Give one recording for each place.';
        issues.push({ code: 'place-twice', message: `"${place}" has two recordings.`, where: operand, mend });
      }
      seen.add(place);
    }
    takes.push({ places: names.map((place) => (place === NO_PLACE ? null : place)), file });
  }
  if (operands.length === 0) {
    issues.push({
      code: 'argument-missing',
      message: 'nearwalk needs at least one recording.',
      mend: `Call it as: ${CALL}`,
    });
  }
  return issues.length > 0 ? failure(...issues) : success(takes);
}

function plannedIn(given: CommandContext['given']): Result<NearPlan> {
  const file = given('plan');
  if (file === undefined) {
    const message = 'nearwalk needs the plan of the channels.';
    return failure({ code: 'option-missing', message, where: '--plan', mend: `Call it as: ${CALL}` });
  }
  const plan = readJsonFile(file, nearPlanSchema, 'a plan of channels ("kickpanel schema nearwalk-plan")');
  if (!plan.ok) return plan;
  const issues = nearPlanContradictions(plan.value).map((issue) => ({ ...issue, where: `${file}: ${issue.where}` }));
  return issues.length > 0 ? failure(...issues) : plan;
}

function trackIn(given: CommandContext['given']): Result<TrackDescription> {
  const file = given('track');
  if (file !== undefined) return readTrackFile(file);
  const message = 'nearwalk needs the description of the track that was playing.';
  return failure({ code: 'option-missing', message, where: '--track', mend: `Call it as: ${CALL}` });
}

const clock = (timeS: number): string => `${Math.floor(timeS / 60)}:${String(Math.floor(timeS % 60)).padStart(2, '0')}`;

/** What a long take holds does not fit the places it is said to be of. */
function otherStops({ places, file }: NamedTake, plays: readonly Play[]): Issue {
  const heard =
    plays.length === 0 ? 'no whole play' : plays.length === 1 ? 'one whole play' : `${plays.length} whole plays`;
  const at = plays.length === 0 ? '' : `, begun at ${plays.map(({ startS }) => clock(startS)).join(', ')}`;
  return {
    code: 'stops-differ',
    message: `The recording holds ${heard} of the track${at}; the call names ${places.length} places.`,
    where: file,
    mend: `Name a place for each play, in their order, "${NO_PLACE}" for one to leave out. A play that was broken off counts as none.`,
  };
}

function readTakes(
  named: NamedTake[],
  track: TrackDescription,
  onProgress: CommandContext['onProgress'],
): Result<Map<string, NearTake>> {
  const takes = new Map<string, NearTake>();
  const issues: Issue[] = [];
  named.forEach((take, index) => {
    const { places, file } = take;
    const listening = (share: number, where: string): void =>
      onProgress((index + share) / named.length, `listening at ${where}`);
    const wav = openWavFile(file);
    if (!wav.ok) {
      issues.push(...wav.issues);
      return;
    }
    const { recording } = wav.value;
    const plays =
      places.length === 1
        ? [{ startS: 0, recording }]
        : playsIn(recording, track, (share) => listening(share / 2, 'each stop'));
    if (plays.length !== places.length) issues.push(otherStops(take, plays));
    else {
      places.forEach((place, i) => {
        if (place === null) return;
        listening((1 + i / places.length) / 2, place);
        takes.set(place, nearTake(plays[i].recording, track));
      });
    }
    wav.value.close();
  });
  return issues.length > 0 ? failure(...issues) : success(takes);
}

function run({ operands, given, onProgress }: CommandContext): CommandOutcome {
  const plan = plannedIn(given);
  const track = trackIn(given);
  const named = plan.ok ? namedTakes(operands, plan.value) : success([]);
  const badCall = [plan, track, named].flatMap((part) => (part.ok ? [] : part.issues));
  if (!plan.ok || !track.ok || !named.ok) return { status: 2, issues: badCall };
  const takes = readTakes(named.value, track.value, onProgress);
  if (!takes.ok) return { status: 2, issues: takes.issues };
  const answer = nearWalk(plan.value, takes.value);
  const refused = answer.unexplained || answer.findings.length > 0 || answer.status === 'nothing to go by';
  return {
    status: refused ? 1 : 0,
    answer: { schema: 'kickpanel.nearwalk/1', ...answer },
    text: (style) => nearWalkText(answer, style),
  };
}

export const command: Command = {
  name: 'nearwalk',
  summary: 'read one take close to each driver: side, band, polarity, and what is wired wrongly',
  usage: 'nearwalk --plan PLAN.json --track F.track.json PLACE=REC.wav ... | PLACE,PLACE,...=REC.wav',
  details:
    'Everything plays, nothing is muted: make the track with "track near", turn the volume right down, hold the microphone 3 to 5 cm in front of each cone and record the whole track once at each, the recorder’s level the same throughout. One long recording does too: start the track anew at each cone and name the places in their order. A take that says nothing leaves its place open. Status 1: a driver gets what it cannot bear, or nothing explains the takes.',
  options: [
    {
      name: 'plan',
      value: 'PLAN.json',
      meaning: 'the channels: outputs with amp, place, kind, polarity and filters (needed)',
    },
    { name: 'track', value: 'F.track.json', meaning: 'the description of the track that was playing (needed)' },
  ],
  example: 'kickpanel nearwalk --plan plan.json --track near.track.json "left door=1.wav"',
  run,
};
