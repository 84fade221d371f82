// The head of the job card: its hole hangs it back on the bench.
import { Icon } from '../parts/Icon.tsx';
import { changeSettings, shownTheme, useSettings } from '../settings.ts';
import { Link } from './Link.tsx';
import { Saved } from './Saved.tsx';

export interface HeadField {
  name: string;
  text: string;
  /** Left out on a phone. */
  wideOnly?: boolean;
}

export interface HeadProps {
  /** The job's number, or the tool's name. */
  id: { name?: string; text: string };
  fields?: readonly HeadField[];
}

export function CardHead({ id, fields = [] }: HeadProps) {
  useSettings();
  const dim = shownTheme() === 'dim';
  return (
    <header className="card-head">
      <Link to={{ page: 'bench' }} className="hole" aria-label="Hang this card back on the bench" />
      <div className="id">
        {id.name ? <small>{id.name}</small> : null}
        <b>{id.text}</b>
      </div>
      {fields.map(({ name, text, wideOnly }) => (
        <div key={name} className={`f${wideOnly ? ' w2' : ''}`}>
          <small>{name}</small>
          <span>{text}</span>
        </div>
      ))}
      <div className="grow" />
      <Saved />
      <div className="head-buttons">
        <Link to={{ page: 'settings' }} className="head-button" aria-label="Settings and microphones">
          <Icon name="settings" />
        </Link>
        <button
          type="button"
          className="head-button"
          aria-label={dim ? 'Light: dim. Change to daylight' : 'Light: daylight. Change to dim'}
          onClick={() => changeSettings({ theme: dim ? 'daylight' : 'dim' })}
        >
          <Icon name="sun" />
        </button>
      </div>
    </header>
  );
}
