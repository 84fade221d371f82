// A job that cannot be shown: still asked for, unknown, or the shop is away.
import { AwayHelp } from '../parts/AwayHelp.tsx';
import { ErrorCard } from '../parts/ErrorCard.tsx';
import { goTo } from '../router.ts';
import { Page } from '../shell/Page.tsx';
import { headOf } from '../shop/job-words.ts';
import type { ShopError } from '../shop/shop-error.ts';

export function JobAway({ job, error }: { job: string; error: ShopError | undefined }) {
  const says = !error
    ? 'Asking the shop for this job.'
    : error.unanswered
      ? 'This job cannot be shown: the shop does not answer.'
      : 'There is no such job here.';
  return (
    <Page
      name="away"
      title="Job"
      head={headOf(undefined, job)}
      says={says}
      bar={{ main: { text: 'Back to the bench', onPress: () => goTo({ page: 'bench' }) } }}
    >
      {error ? <ErrorCard error={error} safe={error.unanswered ? 'What waits on this device is kept.' : ''} /> : null}
      {error?.unanswered ? <AwayHelp /> : null}
    </Page>
  );
}
