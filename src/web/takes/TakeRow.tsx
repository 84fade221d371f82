// One take in the list: what played, how the car stood, what the recording is worth.
import { CoverStrip } from '../parts/CoverStrip.tsx';
import { SeverityMark } from '../parts/Severity.tsx';
import { whenText } from '../parts/times.ts';
import { trueMinus } from '../parts/true-minus.ts';
import { asDriven } from '../plan/cover-words.ts';
import type { ReadingProgress, Take } from '../reading/reading-state.ts';
import { readingSeverity } from '../reading/words.ts';
import { Link } from '../shell/Link.tsx';

interface TakeRowProps {
  job: string;
  take: Take;
  label: string;
  progress: ReadingProgress | undefined;
  /** Its part in the comparison: before, after, or a number. */
  part: string | null;
  onPick: () => void;
}

/** A word for what a recording is worth, and the reason in a few. */
function worth({ progress, take }: TakeRowProps): {
  severity: 'ok' | 'note' | 'fix' | 'stop' | null;
  word: string;
  small: string;
} {
  if (progress?.state === 'failed') return { severity: 'fix', word: 'not read', small: progress.error.facts.message };
  if (progress?.state !== 'done') {
    return { severity: null, word: progress ? 'being read' : 'waits to be read', small: '' };
  }
  const { reading } = progress;
  const severity = readingSeverity(reading);
  const [first] = reading.quality.problems;
  if (severity === 'stop' || severity === 'fix')
    return { severity, word: first?.code.replaceAll('-', ' ') ?? 'limited', small: trueMinus(first?.message ?? '') };
  if (take.covers.length > 0 && !asDriven(take.covers)) {
    return { severity: 'note', word: 'cover off', small: 'not the car they drive' };
  }
  return { severity: 'ok', word: 'sound', small: '' };
}

export function TakeRow(props: TakeRowProps) {
  const { job, take, label, part, onPick } = props;
  const { severity, word, small } = worth(props);
  return (
    <tr className={`${part === null ? '' : 'sel'}${take.kept && severity !== 'stop' ? '' : ' bad'}`}>
      <td>
        <button
          type="button"
          className="bt"
          aria-pressed={part !== null}
          aria-label={`Compare ${label}, ${take.name}`}
          onClick={onPick}
        >
          <b>{label}</b>
          {part === null ? null : <i className="sl">{part}</i>}
        </button>
      </td>
      <td className="wn">{whenText(take.when, new Date())}</td>
      <td>
        <Link to={{ page: 'reading', job, take: take.take }} className="open">
          <b>{take.name}</b>
          <small>{take.kept ? '' : 'set aside'}</small>
        </Link>
      </td>
      <td>
        <CoverStrip covers={take.covers} />
      </td>
      <td>
        {severity === null ? (
          <span className="quiet">{word}</span>
        ) : (
          <SeverityMark severity={severity}>{word}</SeverityMark>
        )}
        {small ? <small className="why-bad">{small}</small> : null}
      </td>
    </tr>
  );
}
