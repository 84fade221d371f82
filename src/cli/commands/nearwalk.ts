// `nearwalk`: one take close to each driver while everything plays: what each is fed, and what is wired wrongly.
import { failure, type Issue, type Result, success } from '../../base/result.ts';
import { type NearTake, nearTake } from '../../measurement/near-field/near-take.ts';
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

interface NamedTake {
  place: string;
  file: string;
}

/** `PLACE=REC.wav`; a place's name may hold anything but the sign itself. */
function namedTakes(operands: string[], { outputs }: NearPlan): Result<NamedTake[]> {
  const places = outputs.map(({ place }) => place);
  const issues: Issue[] = [];
  const takes: NamedTake[] = [];
  for (const operand of operands) {
    const at = operand.indexOf('=');
    const place = operand.slice(0, Math.max(at, 0)).trim();
    const file = operand.slice(at + 1);
    if (at < 1 || file === '') {
      const message = `"${operand}" is not a place and its recording.`;
      issues.push({ code: 'bad-take', message, where: operand, mend: `Call it as: ${CALL}` });
    } else if (!places.includes(place)) {
      const near = nearestWord(place, places);
      const mend = near === null ? `The plan has: ${places.join(', ')}.` : `Did you mean "${near}"?`;
      issues.push({ code: 'unknown-place', message: `The plan has no place "${place}".`, where: operand, mend });
    } else if (takes.some((take) => take.place === place)) {
      const mend = 'Give one recording for each place.';
      issues.push({ code: 'place-twice', message: `"${place}" has two recordings.`, where: operand, mend });
    } else takes.push({ place, file });
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

function readTakes(
  named: NamedTake[],
  track: TrackDescription,
  onProgress: CommandContext['onProgress'],
): Result<Map<string, NearTake>> {
  const takes = new Map<string, NearTake>();
  const issues: Issue[] = [];
  named.forEach(({ place, file }, index) => {
    onProgress(index / named.length, `listening at ${place}`);
    const wav = openWavFile(file);
    if (!wav.ok) issues.push(...wav.issues);
    else {
      takes.set(place, nearTake(wav.value.recording, track));
      wav.value.close();
    }
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
  usage: 'nearwalk --plan PLAN.json --track F.track.json PLACE=REC.wav ...',
  details:
    'Everything plays, nothing is muted: make the track with "track near", turn the volume right down, hold the microphone 3 to 5 cm in front of each cone and record the whole track once at each, the recorder’s level the same throughout. A take that says nothing leaves its place open. Status 1: a driver gets what it cannot bear, or nothing explains the takes.',
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
