// The shop's server is away: what to do, in order, and what is safe meanwhile.
import { useKeptTakes } from '../keep/outbox.ts';
import { useKeptWishes } from '../keep/waiting.ts';
import { wishWords } from '../keep/wish-words.ts';
import { Link } from '../shell/Link.tsx';
import { knownHead } from '../shop/known-heads.ts';
import { Icon } from './Icon.tsx';
import { whenText } from './times.ts';

const steps = [
  'Look at the computer that the server runs on: it may sleep, or may have been restarted.',
  'Start the server there again, as you did the first time.',
  'Wait a moment. This page notices by itself; you need not press anything.',
];

/** The job that something is of, where this device knows what it is called. */
function of(job: string): string {
  const known = knownHead(job);
  return known === null ? '' : `Job ${known.number ?? known.vehicle}, `;
}

export function AwayHelp() {
  const kept = useKeptTakes();
  const wishes = useKeptWishes().filter(({ state }) => state === 'waiting');
  const now = new Date();
  return (
    <div className="eg">
      <div>
        <h2>Do this</h2>
        <ol className="stp">
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </div>
      <div>
        <h2 className="h2s">What is safe</h2>
        <ul className="kp">
          <li className="y">
            <Icon name="ok" />
            <span>
              <b>All that the shop has</b>
              <small>jobs and takes are on its disk, written whole or not at all</small>
            </span>
          </li>
          {kept.map(({ id, job, take, startedMs }) => (
            <li className="y" key={id}>
              <Icon name="ok" />
              <span>
                <Link to={{ page: 'reading', job, take: id }}>
                  <b>{take.name}</b>
                </Link>
                <small>
                  {of(job)}
                  {whenText(startedMs, now)}, kept on this device; it goes to the shop by itself
                </small>
              </span>
            </li>
          ))}
          {wishes.map(({ id, job, wish, when }) => (
            <li className="y" key={id}>
              <Icon name="ok" />
              <span>
                <b>{wishWords(wish)}</b>
                <small>
                  {of(job)}
                  {whenText(when, now)}, waits on this device; it goes to the shop by itself
                </small>
              </span>
            </li>
          ))}
          {kept.length + wishes.length === 0 ? (
            <li className="y">
              <Icon name="ok" />
              <span>
                <b>Nothing waits on this device</b>
                <small>every take and every change made here is at the shop</small>
              </span>
            </li>
          ) : null}
        </ul>
      </div>
    </div>
  );
}
