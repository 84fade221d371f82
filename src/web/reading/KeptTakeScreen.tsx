// A take that only this browser has: read here, and on its way to the shop.
import type { JobView } from '../api-client.ts';
import { changeKeptTake, forgetTake, type KeptTake, keptFile } from '../keep/kept-take.ts';
import { lookAtKept, sendKept } from '../keep/outbox.ts';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { Finding } from '../parts/Finding.tsx';
import { HoldButton } from '../parts/HoldButton.tsx';
import { fileName, saveFile } from '../parts/save-file.ts';
import { goTo } from '../router.ts';
import { useNumbers } from '../settings.ts';
import { Page } from '../shell/Page.tsx';
import { useStage } from '../shell/use-stage.ts';
import { headOf } from '../shop/job-words.ts';
import { useShop } from '../shop/shop-context.ts';
import { ReadingPlots } from './ReadingPlots.tsx';
import { ReadingProgressBar } from './ReadingProgressBar.tsx';
import { useReadingHere } from './reading-state.ts';
import { TakeFacts } from './TakeFacts.tsx';
import { NotSaid, Problems, Verdict } from './Verdict.tsx';
import { readingSentence } from './words.ts';

export function KeptTakeScreen({ kept, view }: { kept: KeptTake; view: JobView | undefined }) {
  const { api } = useShop();
  const style = useNumbers();
  const stage = useStage(view);
  const progress = useReadingHere(kept);
  const reading = progress.state === 'done' ? progress.reading : null;
  const { name, covers, level, input } = kept.take;
  const says =
    kept.state === 'recording'
      ? 'This take is being recorded in another window.'
      : progress.state === 'reading'
        ? `Reading the take on this device: ${progress.doing || 'starting'}.`
        : progress.state === 'failed'
          ? 'The take could not be read on this device.'
          : readingSentence(progress.reading, style);
  const save = async () => saveFile(`${fileName(name)}.wav`, await keptFile(kept));
  const again = async () => {
    await changeKeptTake(kept.id, { state: 'waiting' });
    await lookAtKept();
    void sendKept(api);
  };
  const forget = async () => {
    await forgetTake(kept.id);
    await lookAtKept();
    goTo({ page: 'job', job: kept.job }, { replace: true });
  };
  return (
    <Page
      name="reading"
      title={name}
      head={headOf(view, kept.job)}
      job={kept.job}
      stage={stage}
      says={says}
      bar={{
        why: 'Kept on this device until the shop has it.',
        seconds: [{ text: 'Save it as a file', onPress: () => void save() }],
        main: { text: 'Next take', onPress: () => goTo({ page: 'take', job: kept.job, place: null }) },
      }}
    >
      {kept.state === 'refused' ? (
        <div className="refused">
          <Finding
            severity="stop"
            word="refused"
            message={`The shop does not take it: ${kept.refusal?.message ?? 'no reason was given.'}`}
            mend={kept.refusal?.mend}
            action={
              <button type="button" className="btn" onClick={again}>
                Send it again
              </button>
            }
          />
          <HoldButton text="Throw this take away" onHeld={() => void forget()} />
        </div>
      ) : kept.state === 'waiting' ? (
        <Finding severity="note" word="waits" message="It goes to the shop by itself as soon as the shop answers." />
      ) : null}
      {progress.state === 'failed' ? <ErrorCard error={progress.error} safe="The recording itself is kept." /> : null}
      <div className="rdg">
        <div>
          {progress.state === 'reading' ? <ReadingProgressBar share={progress.share} doing={progress.doing} /> : null}
          {reading ? <Problems reading={reading} /> : null}
          {progress.state === 'done' ? (
            <ReadingPlots reading={progress.reading} impulse={progress.impulse} subject={name} name={name} />
          ) : null}
          {reading ? <NotSaid reading={reading} /> : null}
        </div>
        <div>
          {reading ? <Verdict reading={reading} /> : null}
          <TakeFacts
            take={{
              label: name,
              when: kept.startedMs,
              who: kept.who,
              track: kept.track.kind,
              recorder: input?.label ?? (kept.sound.kind === 'file' ? kept.sound.name : undefined),
              covers: covers ?? [],
              calibration: level?.reference === 'spl' ? 'dB SPL, calibrated' : 'relative, not calibrated',
            }}
            reading={reading}
          />
        </div>
      </div>
    </Page>
  );
}
