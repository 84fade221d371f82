// A fault of a walk in words that a hand can follow: which lead, from where to where.
import { allListed } from '../plan/words.ts';
import type { WalkedChannel, WalkOfJob } from './plan-of-job.ts';

export interface FaultWords {
  /** What is wrong: "L11 and L12 sit on each other's terminals." */
  says: string;
  /** What to do about it: "Move L11 from A/2 to A/1 and L12 from A/1 to A/2." */
  act: string;
}

type Layer = 'signal' | 'speaker';

const inputWords: Record<string, string> = { in1: 'left', in2: 'right' };

/** The channel that a name of the walk is of: an output, an amplifier channel, or a place. */
function channelOf({ channels }: WalkOfJob, name: string): WalkedChannel | undefined {
  return channels.find(({ id, amplifier, place }) => [id, amplifier, place].includes(name));
}

/** Leads that sit on each other's terminals: the lead of each name sits on the terminal of the next. */
function moved(walk: WalkOfJob, layer: Layer, names: readonly string[]): FaultWords {
  const channels = names.flatMap((name) => channelOf(walk, name) ?? []);
  const leadOf = (channel: WalkedChannel) => (layer === 'signal' ? channel.signalLead : channel.speakerLead);
  const moves = channels.map((channel, n) => {
    const sitsAt = channels[(n + 1) % channels.length].amplifier;
    return `${leadOf(channel)} from ${sitsAt} to ${channel.amplifier}`;
  });
  const side = layer === 'signal' ? 'at the inputs of the amplifier' : 'at the outputs of the amplifier';
  const turn =
    channels.length === 2 ? "sit on each other's terminals" : 'have gone round: each sits on the next terminal';
  return {
    says: `${capital(allListed(channels.map(leadOf)))} ${turn} ${side}.`,
    act: `Move ${allListed(moves)}.`,
  };
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * A fault as `channelWalk` names it, said with the labels of the job's own leads.
 *
 * @param fault  such as "swap:speaker:P1+P2"; one of another form is said as it stands
 */
export function faultWords(walk: WalkOfJob, fault: string): FaultWords {
  const [kind, first, ...rest] = fault.split(':');
  const name = rest.join(':');
  if (first === 'input') {
    const side = allListed(name.split('+').map((input) => inputWords[input] ?? input));
    if (kind === 'swap') {
      return {
        says: 'Left and right are exchanged before the processor.',
        act: 'Exchange the two source leads at the processor.',
      };
    }
    return kind === 'open'
      ? { says: `Nothing arrives from the ${side} of the source.`, act: `Follow the ${side} source lead and mend it.` }
      : {
          says: `The ${side} source lead is turned over.`,
          act: `Turn the ${side} source lead over at the processor: plus to plus.`,
        };
  }
  if ((kind === 'swap' || kind === 'cycle') && (first === 'signal' || first === 'speaker')) {
    return moved(walk, first, name.split(kind === 'swap' ? '+' : '>'));
  }
  const channel = channelOf(walk, name === '' ? first : name);
  if (channel === undefined) return { says: `${fault}.`, act: 'Look at it.' };
  const { output, amplifier, placeName, speakerLead, signalLead } = channel;
  switch (`${kind} ${name === '' ? '' : first}`.trim()) {
    case 'mute':
      return { says: `${output} is muted.`, act: `Take the mute off ${output} in the processor.` };
    case 'invert':
      return { says: `${output} is inverted.`, act: `Set ${output} to normal polarity in the processor.` };
    case 'open signal':
      return {
        says: `${capital(signalLead)} carries nothing.`,
        act: `Follow ${signalLead} from ${output} to ${amplifier} and mend it.`,
      };
    case 'open speaker':
      return {
        says: `${capital(speakerLead)} carries nothing, or the driver at ${placeName} is dead.`,
        act: `Measure ${speakerLead} at ${amplifier}, unplugged: open means mend the lead or the driver.`,
      };
    case 'reversed speaker':
      return {
        says: `${capital(speakerLead)} is turned over.`,
        act: `Turn ${speakerLead} over at ${placeName}: plus to plus.`,
      };
    default:
      return { says: `${fault}.`, act: 'Look at it.' };
  }
}

/** A test that tells ties apart, in words, and what may come out of it. */
export function testWords(walk: WalkOfJob, test: string): { ask: string; why: string } {
  const [kind] = test.split(':', 1);
  const channel = channelOf(walk, test.slice(kind.length + 1));
  if (channel === undefined) return { ask: test, why: '' };
  const { output, amplifier, placeName, speakerLead } = channel;
  if (kind === 'view-setting') {
    return {
      ask: `Look at ${output} in the processor.`,
      why: 'A mute or an inversion is seen there; else it is a lead.',
    };
  }
  if (kind === 'probe-amp') {
    return {
      ask: `Feed the input of ${amplifier} from a hand player, quietly.`,
      why: 'What lies before the amplifier is then out of the way.',
    };
  }
  return {
    ask: `Touch ${speakerLead} at ${amplifier}, unplugged, with a tone of a battery tester.`,
    why: `Only the lead and the driver at ${placeName} are then left.`,
  };
}

/** An outcome of a test in words: "Left door, pushes", "nothing", "muted". */
export function outcomeWords({ channels }: WalkOfJob, outcome: string): string {
  if (outcome === 'silent') return 'Nothing is heard';
  const [set, polarity] = outcome.split('/');
  if (['on', 'muted'].includes(set) && ['normal', 'inverted'].includes(polarity)) {
    return capital(`${set === 'on' ? 'not muted' : 'muted'}, ${polarity}`);
  }
  const place = channels.find((channel) => channel.place === outcome.slice(0, -1));
  return `${place?.placeName ?? outcome.slice(0, -1)}${outcome.endsWith('-') ? ', turned over' : ''}`;
}
