import type { ReactNode } from 'react';
import { Icon } from './Icon.tsx';

export type Severity = 'stop' | 'fix' | 'note' | 'ok';

/** A severity by shape, colour and word together. */
export function SeverityMark({ severity, children }: { severity: Severity; children: ReactNode }) {
  return (
    <span className={`sev ${severity}`}>
      <Icon name={severity} />
      <b>{children}</b>
    </span>
  );
}
