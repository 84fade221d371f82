// The noise hunt beside the page, with the very code that the command line runs.
import type { Issue } from '../../base/result.ts';
import type { GivenTakes } from '../../measurement/noise-hunt/given-takes.ts';
import type { TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import { noiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import { spectrumCurve } from '../../measurement/noise-hunt/spectrum-curve.ts';
import { noiseSpectrum } from '../../measurement/noise-hunt/tone-search.ts';
import { byteSourceFromArray } from '../../signals/recording.ts';
import { readWav } from '../../signals/wav/read-wav.ts';
import type { HuntReport, HuntRequest, TakeCurve } from './hunt-messages.ts';

const scope = self as unknown as {
  postMessage(report: HuntReport): void;
  onmessage: ((event: MessageEvent<HuntRequest>) => void) | null;
};

const drawn: readonly TakeRole[] = ['off', 'idle', 'revs'];
const DRAWN_HZ = { from: 20, to: 20_000 };

async function hunted({ request, takes, options }: HuntRequest): Promise<HuntReport> {
  const given: GivenTakes = {};
  const issues: Issue[] = [];
  for (const [role, take] of Object.entries(takes) as [TakeRole, { wav: Blob; rpm: number | undefined }][]) {
    const opened = readWav(byteSourceFromArray(new Uint8Array(await take.wav.arrayBuffer())));
    if (opened.ok) given[role] = { recording: opened.value.recording, rpm: take.rpm };
    else issues.push(...opened.issues.map((issue) => ({ ...issue, where: role })));
  }
  if (issues.length > 0) return { say: 'refused', request, issues };
  const hunt = noiseHunt(given, options);
  if (!hunt.ok) return { say: 'refused', request, issues: hunt.issues };
  const curves = drawn.flatMap((take): TakeCurve[] => {
    const usable = hunt.value.takes.some((one) => one.take === take && one.usable);
    const spectrum = usable && given[take] ? noiseSpectrum(given[take].recording, 0) : null;
    if (!spectrum) return [];
    const { fHz, levelDbfs } = spectrumCurve(spectrum, DRAWN_HZ.from, DRAWN_HZ.to);
    return [{ take, fHz, levelDb: levelDbfs.map((level) => level + (options.fullScaleSplDb ?? 0)) }];
  });
  return { say: 'done', request, hunt: hunt.value, curves };
}

scope.onmessage = ({ data }) => {
  hunted(data).then(
    (report) => scope.postMessage(report),
    (error: unknown) =>
      scope.postMessage({
        say: 'failed',
        request: data.request,
        message: error instanceof Error ? error.message : String(error),
      }),
  );
};
