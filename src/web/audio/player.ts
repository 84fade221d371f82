// Plays a track, sample for sample at its own rate. Never starts by itself; a stop fades in a few milliseconds.
import type { MadeTrack } from './made-track.ts';

export interface Playing {
  /** Seconds into the track; below 0 just before it starts. */
  positionS: () => number;
  stop: () => void;
  /** Resolved when it has ended: true if by itself. */
  ended: Promise<boolean>;
}

const startS = 0.15;
const fadeS = 0.01;

interface OutputContext extends AudioContext {
  setSinkId?: (id: string) => Promise<void>;
}

/** Whether an output can be chosen in this browser. */
export const outputsCanBeChosen = typeof AudioContext !== 'undefined' && 'setSinkId' in AudioContext.prototype;

export async function playTrack(
  made: Pick<MadeTrack, 'track' | 'channels'>,
  outputId: string | null,
): Promise<Playing> {
  const { track, channels } = made;
  const context: OutputContext = new AudioContext({ sampleRate: track.rateHz, latencyHint: 'playback' });
  try {
    if (outputId !== null && context.setSinkId) await context.setSinkId(outputId);
    await context.resume();
  } catch (error) {
    void context.close();
    throw error;
  }
  const buffer = new AudioBuffer({
    length: channels[0].length,
    numberOfChannels: channels.length,
    sampleRate: track.rateHz,
  });
  for (const [channel, samples] of channels.entries()) buffer.copyToChannel(samples, channel);
  const source = new AudioBufferSourceNode(context, { buffer });
  const gain = new GainNode(context, { gain: 1 });
  source.connect(gain).connect(context.destination);
  const startedAt = context.currentTime + startS;
  let byItself = true;
  const ended = new Promise<boolean>((resolve) => {
    source.onended = () => {
      void context.close();
      resolve(byItself);
    };
  });
  source.start(startedAt);
  return {
    positionS: () => context.currentTime - startedAt,
    stop() {
      byItself = false;
      gain.gain.setTargetAtTime(0, context.currentTime, fadeS / 3);
      source.stop(context.currentTime + fadeS);
    },
    ended,
  };
}
