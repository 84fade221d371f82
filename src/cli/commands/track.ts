// `track`: makes a test track, as sound and as the description by which a recording of it is read.
import { trackCautions } from '../../signals/track-design/cautions.ts';
import { designTrack } from '../../signals/track-design/design-track.ts';
import type { Command } from '../command.ts';
import { issuesOfOptions, trackCall, trackOptions } from '../track-options.ts';
import { trackInWords } from '../track-stimuli.ts';
import { type TrackMade, trackSummary } from '../track-summary.ts';
import { descriptionPathFor, writeTrack } from '../write-track.ts';

export const command: Command = {
  name: 'track',
  summary: 'write a test track and, beside it, the description that reads it back',
  usage: 'track KIND --out F.wav',
  details:
    'Kinds: sweep (response, arrival, polarity of one driver or side), steps (the same sweep at rising level), noise (pink), near (microphone close to each driver), pair (time between left and right), polarity (a sweep and one-sided pulses), tone (setting gains), ladder (where a source stops being clean), bursts (which output is which, by ear).',
  options: trackOptions,
  example:
    'kickpanel track sweep --out door.wav --side left --from 40 --to 8000\nkickpanel track steps --out push.wav --from 30 --to 4000 --levels -30:-6:3',
  run(context) {
    const call = trackCall(context);
    if (!call.ok) return { status: 2, issues: call.issues };
    const { request, wavPath, format } = call.value;
    const designed = designTrack(request);
    if (!designed.ok) return { status: 2, issues: issuesOfOptions(designed.issues) };
    const track = designed.value;
    const descriptionPath = descriptionPathFor(wavPath);
    const written = writeTrack(
      track,
      { wavPath, descriptionPath },
      { format, seed: request.seed ?? 1, onProgress: (share) => context.onProgress(share, 'writing the track') },
    );
    if (!written.ok) return { status: 2, issues: written.issues };
    const levels = track.segments.map((segment) => (segment as { levelDbfs?: number }).levelDbfs ?? -160);
    const made: TrackMade = {
      schema: 'kickpanel.track-made/1',
      kind: request.kind,
      file: wavPath,
      descriptionFile: descriptionPath,
      replaced: written.value.replaced,
      durationS: track.durationS,
      rateHz: track.rateHz,
      channels: track.channels,
      bits: format,
      levelDbfs: Math.max(...levels),
      ...trackInWords(track),
      ...(track.code === undefined ? {} : { code: track.code }),
      cautions: trackCautions(request, track),
    };
    return { status: 0, answer: made, text: (style) => trackSummary(made, style) };
  },
};
