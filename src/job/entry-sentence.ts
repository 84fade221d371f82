// What an entry did, in a few words that can follow "undo".
import { checkNamed } from './check-in/checks.ts';
import type { CoverState } from './entry-kinds.ts';
import { givenWords } from './hold-points/evidence-forms.ts';
import type { UnderstoodEntry } from './lifts.ts';
import { counted } from './rules/words.ts';

function coverWords(covers: readonly CoverState[]): string {
  const shown = covers.slice(0, 3).map(({ cover, state }) => `${cover} ${state}`);
  const more = covers.length - shown.length;
  return `${shown.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}

/** How much was passed over when covers were fastened. */
function overWords(over: { open: readonly { holdPoints: readonly string[] }[] } | undefined): string {
  if (over === undefined) return '';
  const count = new Set(over.open.flatMap(({ holdPoints }) => holdPoints)).size;
  return ` over ${counted(count, 'unproven point')}`;
}

function short(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ');
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
}

/** Such as "cover A fastened" or "recorded take Left door": no full stop, no person. */
export function entrySentence(entry: UnderstoodEntry): string {
  switch (entry.kind) {
    case 'job-created':
      return `opened the job ${entry.data.name}`;
    case 'job-renamed':
      return `renamed the job ${entry.data.name}`;
    case 'vehicle-described':
      return `described the vehicle${entry.data.name === undefined ? '' : ` ${entry.data.name}`}`;
    case 'covers-changed':
      return `set ${entry.data.covers.length === 1 ? 'cover' : 'covers'} ${coverWords(entry.data.covers)}${overWords(entry.data.passedOver)}`;
    case 'evidence-given': {
      const { holdPoints, evidence } = entry.data;
      const [first] = holdPoints;
      const of = holdPoints.length === 1 ? first : `${first} and ${holdPoints.length - 1} more`;
      if (evidence.how === 'measured') return `measured ${givenWords(evidence)} for ${of}`;
      return evidence.how === 'seen' ? `found ${of} right` : `gave a ${evidence.how} for ${of}`;
    }
    case 'track-made':
      return `made the track ${entry.data.name ?? entry.data.kind}`;
    case 'take-recorded':
      return `recorded take ${entry.data.name}`;
    case 'take-noted':
      if (entry.data.kept !== undefined) return entry.data.kept ? 'kept a take' : 'set a take aside';
      return entry.data.name === undefined ? 'noted something about a take' : `renamed a take ${entry.data.name}`;
    case 'take-compared':
      return `compared ${entry.data.takes.length} takes`;
    case 'microphone-calibrated':
      return `calibrated the microphone ${entry.data.name}`;
    case 'photo-attached':
      return `attached the photo ${short(entry.data.name)}`;
    case 'checked': {
      const { at, check } = entry.data;
      return `looked over ${checkNamed(check)?.name.toLowerCase() ?? check} at ${at === 'arrive' ? 'Arrive' : 'Refit'}`;
    }
    case 'note-added':
      return `noted "${short(entry.data.text)}"`;
    case 'plan-changed': {
      const { changes, template } = entry.data;
      if (template !== undefined) return `started the plan from ${template}`;
      const [{ change }] = changes;
      const more = changes.length > 1 ? ` and ${changes.length - 1} more` : '';
      return `${change.value === null ? 'took out' : 'changed'} ${change.part} ${change.id}${more}`;
    }
    case 'sound-heard': {
      const { sound } = entry.data;
      if (sound.how === 'tested') return `tested ${sound.test}`;
      if (sound.how === 'mended') return `mended: ${short(sound.what)}`;
      const at = sound.heard.map(({ place }) => place).join(' and ');
      return `heard ${sound.channels.join(' and ')} ${at === '' ? 'nowhere' : `at ${at}`}`;
    }
    case 'finding-overridden':
      return `accepted ${entry.data.finding} at ${entry.data.place}`;
    case 'undone':
      return 'took an entry back';
    case 'personal-erased':
      return 'erased personal data';
  }
}
