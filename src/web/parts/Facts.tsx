import type { ReactNode } from 'react';

/** Names and values, one line each; lines without a value are left out. */
export function Facts({ rows, label }: { rows: readonly [name: string, value: ReactNode][]; label: string }) {
  const shown = rows.filter(([, value]) => value !== null && value !== undefined && value !== '');
  return (
    <dl className="facts" aria-label={label}>
      {shown.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
