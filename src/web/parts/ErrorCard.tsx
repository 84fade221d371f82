// Bad news as a finding: what happened, what is safe, what to do.
import type { ReactNode } from 'react';
import type { ShopError } from '../shop/shop-error.ts';
import { Finding } from './Finding.tsx';
import { trueMinus } from './true-minus.ts';

export function ErrorCard({ error, action, safe }: { error: ShopError; action?: ReactNode; safe?: string }) {
  const { message, mend, where } = error.facts;
  return (
    <div role="alert">
      <Finding
        severity={error.unanswered ? 'fix' : 'stop'}
        word={error.unanswered ? 'waits' : 'not done'}
        message={
          <>
            <b>{trueMinus(message)}</b>
            {where ? <span className="quiet"> ({where})</span> : null}
            {safe ? ` ${safe}` : ''}
          </>
        }
        mend={mend}
        action={action}
      />
    </div>
  );
}
