// What the evidence for a hold point rests on: which fields of which parts. When one of them changes, what was measured or
// seen was of something else. Settings that a tune changes daily are left out where they do not matter.
import { driversIn, partOfTerminal } from '../../plan/networks.ts';
import { kindOf, type PartKind, type PartOf, type Plan } from '../../plan/plan.ts';
import { type HoldPointKind, holdPointNamed, kindFacts } from './ids.ts';

/** A part, and those of its fields that matter; without a list all but its words. */
export interface Basis {
  part: PartKind;
  id: string;
  fields?: readonly string[];
}

/** What makes a driver another one. */
const driverFields = ['make', 'model', 'kind', 'coils', 'coilOhm', 'reOhm', 'place', 'enclosure'];
const amplifierFields = ['class', 'channels', 'bridgeable', 'fullBridge'];
const gainFields = [...amplifierFields, 'sensitivityMinV', 'sensitivityMaxV'];
const loadFields = ['amplifier', 'bridgedWith', 'network', 'passive'];
const leadFields = ['kind', 'from', 'to', 'areaMm2', 'gauge', 'material', 'lengthM', 'under'];
const cableFields = ['from', 'to', 'areaMm2', 'gauge', 'material', 'lengthM', 'under'];
const channelFields = ['output', 'amplifier'];
const settingFields = ['output', 'inputs', 'highPass', 'lowPass', 'eq', 'polarity', 'gainDb', 'delayMs'];
const processorFields = ['inputs', 'outputs'];

const ids = (part: PartKind, list: readonly (string | undefined)[], fields?: readonly string[]): Basis[] =>
  list.flatMap((id) => (id === undefined ? [] : [{ part, id, ...(fields === undefined ? {} : { fields }) }]));

const owner = (terminal: string | undefined) => (terminal === undefined ? undefined : partOfTerminal(terminal));

/** Loads on these amplifier channels, with the drivers behind them. */
function loadsOn(plan: Plan, terminals: readonly (string | undefined)[], more: readonly string[] = []): Basis[] {
  const on = plan.load.filter(
    ({ amplifier, bridgedWith }) =>
      (amplifier !== undefined && terminals.includes(amplifier)) ||
      (bridgedWith !== undefined && terminals.includes(bridgedWith)),
  );
  return on.flatMap(({ id, network }) => [
    ...ids('load', [id], [...loadFields, ...more]),
    ...ids('driver', network === undefined ? [] : driversIn(network), driverFields),
  ]);
}

const leadsFrom = (plan: Plan, terminal: string | undefined): Basis[] =>
  terminal === undefined
    ? []
    : ids(
        'lead',
        plan.lead.filter(({ from }) => from === terminal).map(({ id }) => id),
        leadFields,
      );

const channelsOn = (plan: Plan, terminal: string | undefined, fields: readonly string[]): Basis[] =>
  ids(
    'channel',
    plan.channel.filter(({ amplifier }) => amplifier !== undefined && amplifier === terminal).map(({ id }) => id),
    fields,
  );

const find = <Item extends { id: string }>(list: readonly Item[], id: string): Item | undefined =>
  list.find((known) => known.id === id);

function ofLead(plan: Plan, lead: PartOf<'lead'>): Basis[] {
  const ends = [lead.from, lead.to];
  const owners = ends.map(owner);
  return [
    ...loadsOn(plan, [lead.from]),
    ...ids(
      'driver',
      owners.filter((id) => find(plan.driver, id ?? '') !== undefined),
      driverFields,
    ),
    ...ids(
      'amplifier',
      owners.filter((id) => find(plan.amplifier, id ?? '') !== undefined),
      amplifierFields,
    ),
    ...ids(
      'processor',
      owners.filter((id) => find(plan.processor, id ?? '') !== undefined),
      processorFields,
    ),
  ];
}

function others(plan: Plan, kind: HoldPointKind, of: string): Basis[] {
  switch (kind) {
    case 'fuse-fitted':
      return ids('run', [find(plan.fuse, of)?.run], cableFields);
    case 'ground-holds': {
      const device = find(plan.ground, of)?.of;
      return find(plan.amplifier, device ?? '') === undefined ? [] : ids('amplifier', [device], amplifierFields);
    }
    case 'lead-connected': {
      const lead = find(plan.lead, of);
      return lead === undefined ? [] : ofLead(plan, lead);
    }
    case 'coils-read': {
      const load = find(plan.load, of);
      return [
        ...ids('driver', load?.network === undefined ? [] : driversIn(load.network), driverFields),
        ...leadsFrom(plan, load?.amplifier),
      ];
    }
    case 'channel-reaches': {
      const terminal = find(plan.channel, of)?.amplifier;
      return [
        ...loadsOn(plan, [terminal]),
        ...ids('amplifier', [owner(terminal)], amplifierFields),
        ...leadsFrom(plan, terminal),
      ];
    }
    case 'driver-polarity': {
      const loads = plan.load.filter(({ network }) => network !== undefined && driversIn(network).includes(of));
      return loads.flatMap(({ id, amplifier }) => [
        ...ids('load', [id], [...loadFields, 'polarity']),
        ...channelsOn(plan, amplifier, [...channelFields, 'polarity']),
        ...leadsFrom(plan, amplifier),
      ]);
    }
    case 'gain-set':
      return [
        ...loadsOn(plan, [of]).map((basis) =>
          basis.part === 'driver' ? { ...basis, fields: [...driverFields, 'thermalW', 'targetV'] } : basis,
        ),
        ...channelsOn(plan, of, [...channelFields, 'overlapDb']),
        ...ids(
          'processor',
          plan.channel.filter(({ amplifier }) => amplifier === of).map(({ output }) => owner(output)),
          ['outputs', 'headroomDb'],
        ),
      ];
    case 'settings-kept':
      return ids(
        'channel',
        plan.channel.filter(({ output }) => owner(output) === of).map(({ id }) => id),
        settingFields,
      );
    case 'planned': {
      const about = find(plan.holdPoint, of)?.of;
      const kind = about === undefined ? null : kindOf(plan, about);
      return kind === null ? [] : ids(kind, [about]);
    }
    default:
      return [];
  }
}

/** Fields of the part itself that matter. */
const ownFields: Record<HoldPointKind, readonly string[]> = {
  'run-laid': cableFields,
  'fuse-fitted': ['run', 'ratedA', 'family', 'atM'],
  'ground-holds': ['of', 'areaMm2', 'gauge', 'material', 'lengthM', 'point'],
  'lead-connected': leadFields,
  'coils-read': loadFields,
  'channel-reaches': channelFields,
  'driver-polarity': driverFields,
  'source-ceiling': ['kind', 'outputs', 'bridgedOutput', 'factoryProcessing', 'factoryProcessingCorrected'],
  'gain-set': gainFields,
  'box-fixed': ['kind', 'place', 'massKg', 'netL', 'structuralFixings'],
  'factory-sounds': ['kind', 'outputs', 'factory'],
  'calls-heard': ['kind', 'outputs', 'factory', 'calls'],
  'settings-kept': ['inputs', 'outputs', 'dials'],
  planned: ['name', 'of'],
};

/**
 * What evidence for the hold point `id` rests on in `plan`; empty where nothing is called so. A part may be named twice, with
 * other fields.
 */
export function basisOf(plan: Plan, id: string): Basis[] {
  const named = holdPointNamed(id);
  if (named === null) return [];
  const { kind, of } = named;
  return [...ids(kindFacts[kind].part, [partOfTerminal(of)], ownFields[kind]), ...others(plan, kind, of)];
}
