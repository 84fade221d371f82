// Source, processor channel, amplifier channel, driver: one row a lane, and each finding under the row it speaks of.
import { Fragment } from 'react';
import { fixedText, frequencyText, significantText } from '../../charts/number-words.ts';
import type { PartOf, Plan } from '../../plan/plan.ts';
import type { EditedPart } from '../part-editor/PartEditor.tsx';
import { Icon } from '../parts/Icon.tsx';
import { useNumbers } from '../settings.ts';
import { type LaneRow, spareOutputs } from './lanes.ts';
import { PlanFindingCard } from './PlanFindingCard.tsx';
import { stands } from './plan-words.ts';
import type { PlanActions } from './use-plan.ts';

interface LanesProps {
  plan: Plan;
  rows: readonly LaneRow[];
  actions: PlanActions;
  onEdit: (part: EditedPart) => void;
  onNew: (kind: EditedPart['kind']) => void;
}

const lead = (n: number) => `var(--lead-${(n % 6) + 1})`;

export function Lanes({ plan, rows, actions, onEdit, onNew }: LanesProps) {
  const lastOf = (side: 'left' | 'right') => rows.findLastIndex(({ plays }) => plays[side]);
  const last = { left: lastOf('left'), right: lastOf('right') };
  const spare = spareOutputs(plan);
  return (
    <div className="lanes-box">
      <div className="lhead" aria-hidden="true">
        <span>Source</span>
        <span />
        <span>Processor channel</span>
        <span />
        <span>Amplifier, power, load</span>
        <span />
        <span>Driver and place</span>
      </div>
      <div className="lanes">
        <SourceBox plan={plan} onEdit={onEdit} onNew={onNew} />
        {rows.map((row, n) => (
          <Fragment key={row.key}>
            <div className="lane">
              <Bus row={row} n={n} last={last} first={n === 0} />
              <ChannelCell row={row} onEdit={onEdit} onNew={onNew} />
              <i
                className={`wire${row.channel && row.terminal ? '' : ' cut'}`}
                style={{ ['--c' as string]: lead(n) }}
              />
              <AmplifierCell
                row={row}
                first={row.amplifier?.id !== rows[n - 1]?.amplifier?.id || opened(rows[n - 1])}
                onEdit={onEdit}
                onNew={onNew}
              />
              <i
                className={`wire fat${row.load && row.drivers.length > 0 ? '' : ' cut'}`}
                style={{ ['--c' as string]: lead(n) }}
              />
              <DriverCell row={row} onEdit={onEdit} onNew={onNew} />
            </div>
            {row.findings.map((group, index) => (
              <div className="lane" key={`${group[0].id} ${group[0].place} ${group[0].message}`}>
                <Bus row={row} n={n} last={last} first={false} between />
                <PlanFindingCard
                  plan={plan}
                  group={group}
                  actions={actions}
                  brief
                  {...(index === 0 ? { at: row.at } : {})}
                />
              </div>
            ))}
          </Fragment>
        ))}
        {spare.length > 0 ? (
          <div className="lane spare">
            <button type="button" className="pc" onClick={() => onNew('channel')}>
              <b>{spare.map((terminal) => terminal.split('/')[1]).join(', ')}</b>
              <Curve />
              <span>spare</span>
            </button>
            <i className="stub" />
            <p>Left over. Label {spare.length === 1 ? 'it and cap it' : 'them and cap them'}.</p>
          </div>
        ) : null}
      </div>
    </div>
  );
}

const opened = (row: LaneRow | undefined): boolean => row !== undefined && row.findings.length > 0;

function SourceBox({ plan, onEdit, onNew }: Pick<LanesProps, 'plan' | 'onEdit' | 'onNew'>) {
  const style = useNumbers();
  const [source] = plan.source;
  if (source === undefined) {
    return (
      <button type="button" className="src open" onClick={() => onNew('source')}>
        <b>No source</b>
        <span>say what plays</span>
      </button>
    );
  }
  const { id, name, kind, cleanV } = source;
  return (
    <button type="button" className="src" onClick={() => onEdit({ kind: 'source', id })}>
      <b>{name ?? id}</b>
      <span>{kind === undefined ? 'level not known' : kind === 'digital' ? 'digital' : `${kind} level`}</span>
      {cleanV === undefined ? null : <span>clean to {significantText(cleanV, 2, style)} V</span>}
    </button>
  );
}

interface BusProps {
  row: LaneRow;
  n: number;
  last: { left: number; right: number };
  first: boolean;
  between?: boolean;
}

/** The left signal is a whole line, the right one is broken; each goes down as far as a lane plays it. */
function Bus({ row, n, last, first, between = false }: BusProps) {
  const line = (side: 'left' | 'right') => {
    const end = last[side];
    if (n > end || (between && n === end)) return null;
    const shape = `${first ? ' from' : ''}${n === end ? ' to' : ''}`;
    return (
      <>
        <i className={`${side}${shape}`} />
        {!between && row.plays[side] ? <i className={`${side} tap`} /> : null}
      </>
    );
  };
  return (
    <span className="bus" aria-hidden="true">
      {line('left')}
      {line('right')}
    </span>
  );
}

/** What a channel lets through, drawn: up to, from, both or everything. */
function Curve({ channel }: { channel?: PartOf<'channel'> | undefined }) {
  const { highPass, lowPass } = channel ?? {};
  const d =
    channel === undefined || (highPass === undefined && lowPass === undefined)
      ? 'M2 18H35'
      : highPass
        ? lowPass
          ? 'M2 18C7 18 8 4 13 4H24C30 4 30 18 35 18'
          : 'M2 18C9 18 11 4 18 4H34'
        : lowPass
          ? 'M2 4H18C26 4 27 18 35 18'
          : 'M2 4H35';
  return (
    <svg className="gl" viewBox="0 0 37 22" aria-hidden="true">
      <path d={d} />
    </svg>
  );
}

type CellProps = { row: LaneRow } & Pick<LanesProps, 'onEdit' | 'onNew'>;

function ChannelCell({ row: { channel }, onEdit, onNew }: CellProps) {
  const style = useNumbers();
  if (channel === undefined) {
    return (
      <button type="button" className="pc open" onClick={() => onNew('channel')}>
        <span>no channel yet</span>
      </button>
    );
  }
  const { id, output, highPass, lowPass, polarity, name } = channel;
  const hz = (edge: NonNullable<typeof highPass>) => frequencyText(edge.fHz, style);
  const range = highPass
    ? lowPass
      ? `${hz(highPass)} to ${hz(lowPass)}`
      : `from ${hz(highPass)}`
    : lowPass
      ? `up to ${hz(lowPass)}`
      : highPass === undefined && lowPass === undefined
        ? 'not planned yet'
        : 'everything';
  return (
    <button
      type="button"
      className="pc"
      aria-label={`Channel ${id}${name ? `, ${name}` : ''}: ${range}${polarity === -1 ? ', turned over' : ''}`}
      onClick={() => onEdit({ kind: 'channel', id })}
    >
      <b>{output?.split('/')[1] ?? id}</b>
      <Curve channel={channel} />
      <span>
        {range}
        {polarity === -1 ? ' \u2212' : ''}
      </span>
    </button>
  );
}

function AmplifierCell({ row, first, onEdit, onNew }: CellProps & { first: boolean }) {
  const style = useNumbers();
  const { terminal, load, watt, ohm, findings } = row;
  if (terminal === undefined) {
    return (
      <button
        type="button"
        className="am open first"
        onClick={() => (load ? onEdit({ kind: 'load', id: load.id }) : onNew('load'))}
      >
        <span>no amplifier yet</span>
      </button>
    );
  }
  const fault = findings
    .map(([found]) => found)
    .find((found) => found.place.startsWith('load') && found.severity === 'stop' && stands(found));
  const power = watt === undefined ? 'power not known' : `${significantText(watt, 3, style)} W`;
  return (
    <button
      type="button"
      className={`am${first ? ' first' : ''}`}
      aria-label={`Load at ${terminal}: ${fault ? 'not rated' : power}${ohm === undefined ? '' : `, ${significantText(ohm, 3, style)} ohm`}`}
      onClick={() => (load ? onEdit({ kind: 'load', id: load.id }) : onNew('load'))}
    >
      <b>{terminal.replace('/', '')}</b>
      {fault ? (
        <span className="bad">
          <Icon name="stop" />
          not rated
        </span>
      ) : (
        <span>{watt === undefined ? '' : power}</span>
      )}
      <span className="oh">{ohm === undefined ? '' : `${fixedOhm(ohm, style)} ohm`}</span>
    </button>
  );
}

const fixedOhm = (ohm: number, style: Parameters<typeof fixedText>[2]) =>
  Number.isInteger(ohm) ? fixedText(ohm, 0, style) : significantText(ohm, 3, style);

function DriverCell({ row: { drivers, places }, onEdit, onNew }: CellProps) {
  if (drivers.length === 0) {
    return (
      <button type="button" className="dr open" onClick={() => onNew('driver')}>
        <span>no driver yet</span>
      </button>
    );
  }
  const [driver] = drivers;
  const model = driver.model === undefined ? driver.name : [driver.make, driver.model].filter(Boolean).join(' ');
  const coils = (driver.coils ?? 1) > 1 ? `, ${driver.coils} coils of ${driver.coilOhm ?? '?'} ohm` : '';
  const place = places[0]?.name;
  return (
    <div className="drs">
      <button type="button" className="dr" onClick={() => onEdit({ kind: 'driver', id: driver.id })}>
        <Icon name="driver" />
        <span>
          <b>{place ?? driver.id}</b>
          <small>
            {place === undefined ? 'no place yet, ' : ''}
            {drivers.length > 1 ? `${drivers.length} \u00d7 ` : ''}
            {model ?? 'driver not chosen'}
            {coils}
          </small>
        </span>
      </button>
    </div>
  );
}
