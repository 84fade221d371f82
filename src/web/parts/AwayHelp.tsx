// The shop's server is away: what to do, in order, and what is safe meanwhile.
import { useKeptTakes } from '../keep/outbox.ts';
import { Link } from '../shell/Link.tsx';
import { Icon } from './Icon.tsx';
import { whenText } from './times.ts';

const steps = [
  'Look at the computer that the server runs on: it may sleep, or may have been restarted.',
  'Start the server there again, as you did the first time.',
  'Wait a moment. This page notices by itself; you need not press anything.',
];

export function AwayHelp() {
  const kept = useKeptTakes();
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
                <small>{whenText(startedMs, now)}, kept on this device; it goes to the shop by itself</small>
              </span>
            </li>
          ))}
          {kept.length === 0 ? (
            <li className="y">
              <Icon name="ok" />
              <span>
                <b>Nothing waits on this device</b>
                <small>every take that was recorded here is at the shop</small>
              </span>
            </li>
          ) : null}
        </ul>
      </div>
    </div>
  );
}
