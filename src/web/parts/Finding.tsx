import type { ReactNode } from 'react';
import { type Severity, SeverityMark } from './Severity.tsx';
import { trueMinus } from './true-minus.ts';

interface FindingProps {
  severity: Severity;
  /** The severity's word, such as "stop" or "limit". */
  word: string;
  /** What is wrong, in a sentence. */
  message: ReactNode;
  /** What to do about it. */
  mend?: ReactNode;
  /** One button at most. */
  action?: ReactNode;
}

const inWords = (said: ReactNode): ReactNode => (typeof said === 'string' ? trueMinus(said) : said);

export function Finding({ severity, word, message, mend, action }: FindingProps) {
  return (
    <div className={`finding ${severity}`}>
      <SeverityMark severity={severity}>{word}</SeverityMark>
      <p>
        {inWords(message)}
        {mend === undefined || mend === '' ? null : <span className="mend"> {inWords(mend)}</span>}
      </p>
      {action ?? <span />}
    </div>
  );
}
