// One place of the near walk: side, band, polarity and level found against planned, and why.
import type { JobNearWalk } from '../../job/near-walk/job-near-walk.ts';
import type { NearPlan, NearPlanOutput } from '../../wiring/near-plan.ts';
import type { NearPlaceAnswer } from '../../wiring/near-walk.ts';
import type { WalkedChannel } from '../../wiring/plan-of-job.ts';
import { DropZone, FileButton } from '../parts/DropZone.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { trueMinus } from '../parts/true-minus.ts';
import { useNumbers } from '../settings.ts';
import { Link } from '../shell/Link.tsx';
import { bandHeight, bandWidth, bandX, foundPaths, plannedPath } from './band-row.ts';
import {
  bandSentence,
  edgeFigures,
  edgeText,
  levelFigure,
  levelText,
  plannedSide,
  sideSentence,
  verdictOf,
} from './near-words.ts';

interface PlaceRowProps {
  job: string;
  plan: NearPlan;
  output: NearPlanOutput;
  channel: WalkedChannel;
  walk: JobNearWalk | null;
  /** Whether a take of it is there, read or not. */
  taken: boolean;
  onFiles: (files: readonly File[]) => void;
}

const gridHz = [50, 100, 200, 500, 1000, 2000, 5000, 10_000];

function Band({
  output,
  walk,
  told,
}: {
  output: NearPlanOutput;
  walk: JobNearWalk | null;
  told: NearPlaceAnswer | null;
}) {
  const style = useNumbers();
  const curve = walk?.curves.find(({ place }) => place === output.place);
  const found = curve === undefined ? null : foundPaths(output, curve);
  const wrong = told?.verdict === 'differs';
  return (
    <svg
      className={`band${wrong ? ' wrong' : ''}`}
      viewBox={`0 0 ${bandWidth} ${bandHeight}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={
        told === null
          ? bandSentence(output, null, style).replace(/ Found:.*/, ' Not yet found.')
          : bandSentence(output, told.band, style)
      }
    >
      {gridHz.map((fHz) => (
        <path
          key={fHz}
          className={`grid${Number.isInteger(Math.log10(fHz)) ? ' major' : ''}`}
          d={`M${bandX(fHz).toFixed(1)} 0V${bandHeight}`}
        />
      ))}
      <path className="planned" d={plannedPath(output)} />
      {found === null ? null : (
        <>
          <path className="drowned" d={found.drowned} />
          <path className="found" d={found.own} />
        </>
      )}
    </svg>
  );
}

function Sides({ output, told }: { output: NearPlanOutput; told: NearPlaceAnswer | null }) {
  const planned = plannedSide(output);
  const heard = told?.side ?? null;
  const box = (side: 'left' | 'right') => {
    const filled = heard === side || heard === 'both';
    return `${filled ? 'heard' : ''}${planned === side || planned === 'both' ? ' planned' : ''}`;
  };
  const wrong = heard !== null && heard !== planned;
  return (
    <span
      className={`sides${wrong ? ' wrong' : ''}`}
      role="img"
      aria-label={told === null ? `Planned: ${planned}.` : sideSentence(told.side, planned)}
    >
      <i className={box('left')}>L</i>
      <i className={box('right')}>R</i>
    </span>
  );
}

const moves = {
  '1': ['+', 'as', 'Moves as planned'],
  '-1': ['\u2212', 'against', 'Moves the other way round'],
  '0': ['?', '', 'Polarity: cannot say'],
} as const;

function Move({ told }: { told: NearPlaceAnswer }) {
  const [sign, name, words] = moves[`${told.polarity.againstPlan}`];
  return (
    <span className={`move ${name}`} role="img" aria-label={words}>
      {sign}
    </span>
  );
}

/** As planned, polarity included: the row says it all. */
const settled = ({ verdict, polarity }: NearPlaceAnswer): boolean => verdict === 'as-planned' && polarity.sign !== 0;

export function PlaceRow({ job, plan, output, channel, walk, taken, onFiles }: PlaceRowProps) {
  const style = useNumbers();
  const told = walk?.places.find(({ place }) => place === output.place) ?? null;
  const danger = walk?.findings.some(({ place }) => place === output.place) === true;
  const verdict = told === null ? null : verdictOf(plan, told, danger);
  const level = told === null || walk === null ? null : levelFigure(plan, told, walk.places);
  const { place, placeName } = channel;
  return (
    <li>
      <DropZone
        className={`near-row${verdict?.severity === 'stop' ? ' lit' : ''}`}
        label={`Place ${place}`}
        onFiles={onFiles}
      >
        <p className="where">
          <b>{place}</b>
          <span>{placeName}</span>
        </p>
        <Sides output={output} told={told} />
        <Band output={output} walk={walk} told={told} />
        <p className="edges">
          {told === null
            ? null
            : edgeFigures(output, told.band, style).map((figure) => (
                <span key={figure.end}>
                  <b>{edgeText(figure, style)}</b>
                  {figure.planned === null ? null : (
                    <s>
                      <span className="unseen">planned </span>
                      {figure.planned}
                    </s>
                  )}
                </span>
              ))}
          {level === null ? null : (
            <span className={level.apart ? 'apart' : ''}>
              {levelText(level, style)} <small>to {level.against}</small>
            </span>
          )}
        </p>
        <span className="first">{told === null ? null : <Move told={told} />}</span>
        <div className="against">
          {verdict === null ? (
            <span className="quiet">{taken ? 'not read yet' : 'not yet'}</span>
          ) : (
            <SeverityMark severity={verdict.severity}>{verdict.word}</SeverityMark>
          )}
        </div>
        <div className="do">
          <Link
            to={{ page: 'take', job, place: placeName, near: true }}
            className="btn"
            aria-label={`${taken ? 'Record again' : 'Record'} at ${place}`}
          >
            {taken ? 'Again' : 'Record'}
          </Link>
          <FileButton text="WAV" label={`WAV for ${place}`} onFiles={onFiles} />
        </div>
        {told === null || settled(told) ? null : <p className="why">{trueMinus(told.why)}</p>}
      </DropZone>
    </li>
  );
}
