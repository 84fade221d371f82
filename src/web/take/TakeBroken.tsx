// A take that broke off: what happened, what is safe, what to do, in that order.
import { frequencyText } from '../../charts/number-words.ts';
import { Icon } from '../parts/Icon.tsx';
import { exactClockText } from '../parts/times.ts';
import { useNumbers } from '../settings.ts';
import { useSavedStatus } from '../shop/saved-status.ts';
import { SweepTrack } from './SweepTrack.tsx';
import { progressAxis } from './track-place.ts';
import type { BrokenTake } from './use-take.ts';

/** Where it broke off: a frequency, or a time. */
export function brokenPlace(broken: BrokenTake, style: { decimal: '.' | ',' }): string {
  const axis = progressAxis(broken.track);
  if (axis.kind === 'frequency') return `at ${frequencyText(axis.from * (axis.to / axis.from) ** broken.share, style)}`;
  return `after ${Math.round(broken.share * axis.to)} s`;
}

const steps: [test: RegExp, steps: string[]][] = [
  [
    /went away/,
    [
      'Look at the cable between the microphone and this computer.',
      'Plug it in again and press Listen; it then shows its level.',
      'Take it again from the start. A mended take cannot be trusted.',
    ],
  ],
  [
    /slept/,
    [
      'Keep the lid open and the page in front while a take runs.',
      'Take it again from the start. A mended take cannot be trusted.',
    ],
  ],
  [
    /no more room|could not keep/,
    [
      'Make room on this disk: this browser needs about 20 MB for a minute of sound.',
      'Let the takes that wait here go to the shop first; the head of the page counts them.',
      'Take it again from the start.',
    ],
  ],
  [/lost/, ['Close other programs that work hard.', 'Take it again from the start. A mended take cannot be trusted.']],
  [/by hand/, ['When it is quiet again, take it from the start.']],
];

export function TakeBroken({ broken }: { broken: BrokenTake }) {
  const style = useNumbers();
  const { waiting, awaySince } = useSavedStatus();
  const why = broken.end.broken ?? 'The recording ended before the track did.';
  const todo = steps.find(([test]) => test.test(why))?.[1] ?? ['Take it again from the start.'];
  const seconds =
    broken.end.take?.sound.kind === 'captured' ? broken.end.take.frames / broken.end.take.sound.rateHz : null;
  return (
    <div className="eg">
      <div>
        <SweepTrack
          axis={progressAxis(broken.track)}
          share={broken.share}
          now={`${why.replace(/\.$/, '')}, ${exactClockText(broken.when)}`}
          envelopeDb={broken.envelopeDb}
          style={style}
          brokenAt={broken.share}
        />
        <h2>Do this</h2>
        <ol className="stp">
          {todo.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </div>
      <div>
        <h2 className="h2s">What is safe</h2>
        <ul className="kp">
          <li className={broken.end.take === null ? 'n' : 'y'}>
            <Icon name={broken.end.take === null ? 'fix' : 'ok'} />
            <span>
              <b>The broken take</b>
              <small>
                {broken.end.take === null
                  ? 'what had been written is kept; the rest could not be'
                  : `${seconds === null ? '' : `${seconds.toFixed(1)} s, `}kept as evidence, set aside`}
              </small>
            </span>
          </li>
          <li className="y">
            <Icon name="ok" />
            <span>
              <b>All takes before it</b>
              <small>nothing of them has changed</small>
            </span>
          </li>
          {waiting > 0 || awaySince !== null ? (
            <li className="n">
              <Icon name="fix" />
              <span>
                <b>{waiting === 1 ? 'One take waits' : `${waiting} takes wait`} on this device</b>
                <small>
                  {waiting === 1
                    ? 'it goes to the shop by itself once that answers'
                    : 'they go to the shop by themselves once it answers'}
                </small>
              </span>
            </li>
          ) : null}
        </ul>
      </div>
    </div>
  );
}
