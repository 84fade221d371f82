// How each field of each part is typed: its words, its unit, what it may point to. Ranges come from the plan's own form.
import type { PartKind, PartOf } from '../../plan/plan.ts';
import type { QuantityName } from './quantity.ts';

export type FieldForm =
  | { type: 'text'; label: string; long?: boolean; suggest?: readonly string[] }
  | { type: 'number'; label: string; quantity: QuantityName; hint?: string }
  | { type: 'numbers'; label: string; quantity: QuantityName; hint?: string }
  | { type: 'choice'; label: string; options: readonly (readonly [value: string | number, words: string])[] }
  | { type: 'flag'; label: string }
  | { type: 'part'; label: string; among: readonly PartKind[] }
  | { type: 'parts'; label: string; among: readonly PartKind[]; every?: boolean }
  | { type: 'terminal'; label: string; of: TerminalKind; orPart?: boolean }
  | { type: 'terminals'; label: string; of: TerminalKind }
  | { type: 'checks'; label: string; options: readonly (readonly [value: string, words: string])[] }
  | { type: 'edge'; label: string }
  | { type: 'bands'; label: string }
  | { type: 'distances'; label: string }
  | { type: 'cable'; label: string }
  | { type: 'wiring'; label: string }
  | { type: 'ratings'; label: string }
  | { type: 'reading'; label: string };

/** What terminals a field may name. */
export type TerminalKind = 'processor-output' | 'processor-input' | 'amplifier' | 'source' | 'driver' | 'any';

type Forms<Kind extends PartKind> = { [Field in keyof PartOf<Kind>]?: FieldForm } & Record<string, FieldForm>;

const text = (label: string, suggest?: readonly string[]): FieldForm =>
  suggest ? { type: 'text', label, suggest } : { type: 'text', label };
const number = (label: string, quantity: QuantityName, hint?: string): FieldForm =>
  hint === undefined ? { type: 'number', label, quantity } : { type: 'number', label, quantity, hint };
const flag = (label: string): FieldForm => ({ type: 'flag', label });
const choice = (label: string, ...options: (readonly [string | number, string])[]): FieldForm => ({
  type: 'choice',
  label,
  options,
});
const part = (label: string, ...among: PartKind[]): FieldForm => ({ type: 'part', label, among });
const parts = (label: string, ...among: PartKind[]): FieldForm => ({ type: 'parts', label, among });

const name = text('Name');
const note: FieldForm = { type: 'text', label: 'Note', long: true };
const supply = choice('Made for', [12, '12 V'], [24, '24 V']);
const polarity = choice('Polarity', [1, 'as marked'], [-1, 'turned over']);
const groundAt = text('Its ground is at');
const material = choice(
  'Metal',
  ['copper', 'copper'],
  ['copper-clad-aluminium-15', 'clad aluminium, 15 % copper'],
  ['copper-clad-aluminium-10', 'clad aluminium, 10 % copper'],
  ['aluminium', 'aluminium'],
  ['unknown', 'not known'],
);
const dangers = [
  ['fuel', 'fuel'],
  ['brake', 'brakes'],
  ['steering', 'steering'],
  ['airbag', 'an airbag'],
  ['high-voltage', 'high voltage'],
] as const;
const near: FieldForm = { type: 'checks', label: 'Comes nearer than 10 cm to', options: dangers };
const under = parts('Runs under', 'cover');

/** The fields of each kind, in the order in which they are asked for. */
export const fieldForms: { [Kind in PartKind]: Forms<Kind> } = {
  vehicle: {
    name,
    systemVoltageV: choice('System', [12, '12 V'], [24, '24 V']),
    converterTo12V: flag('A converter gives 12 V'),
    alternatorA: number('Alternator, rated', 'amperes'),
    alternatorIdleShare: number('Share of it at idle', 'number', '0.5 unless its maker says more'),
    vehicleLoadA: number('The vehicle itself draws', 'amperes', '25 a small car by day, 35 typical, 60 at night'),
    highVoltage: flag('Hybrid or electric'),
    cabinVolumeM3: number('Air of the cabin', 'cubicMetres', '2.3 small hatchback, 3 saloon, 4 estate'),
    cabinLeakHz: number('Leaks take over below', 'hertz', '5 well closed, 10 through seats'),
    cabinFullness: number('Cabin gain against the ideal', 'number', '0.8 hatchback, 0.6 saloon or van'),
    note,
  },
  cover: {
    name,
    letter: text('Letter on the plan view'),
    closing: flag('Marked for closing'),
    duringTakes: choice(
      'While takes are recorded',
      ['off', 'off'],
      ['resting', 'set in place'],
      ['fastened', 'fastened'],
    ),
    note,
  },
  place: {
    name,
    side: choice('Side', ['left', 'left'], ['right', 'right'], ['centre', 'centre']),
    row: choice(
      'Row',
      ['dash', 'dash'],
      ['front', 'front'],
      ['second', 'second'],
      ['third', 'third'],
      ['rear', 'rear'],
      ['boot', 'boot'],
    ),
    position: choice(
      'Where',
      ['pillar', 'pillar'],
      ['dash-top', 'dash top'],
      ['kick-panel', 'kick panel'],
      ['door', 'door'],
      ['shelf', 'shelf'],
      ['roof', 'roof'],
      ['under-seat', 'under a seat'],
      ['boot-floor', 'boot floor'],
      ['side-panel', 'side panel'],
      ['other', 'elsewhere'],
    ),
    covers: parts('Behind', 'cover'),
    depthMm: number('Depth there', 'millimetres', 'with the window up'),
    glassTravelMm: number('The glass takes of it', 'millimetres', 'when it is fully down; 0 without glass'),
    restraint: flag('An airbag sits there or works through it'),
    note,
  },
  seat: {
    name,
    targetLevelDb: number('Loudest bass asked for here', 'decibels', 'sound pressure level'),
    pushMinutes: number('Planned loud time in one day', 'minutes'),
    pushLevelDba: number('At the ear meanwhile', 'decibelsA', 'hearing protection counted'),
    heardBeforePct: number('Noise of that day heard elsewhere', 'percent', 'share of what a day may hold'),
    distances: { type: 'distances', label: 'From the head there to each place' },
    note,
  },
  source: {
    name,
    factory: flag('It came with the car'),
    calls: flag('Calls, chimes or directions go through it'),
    kind: choice(
      'Gives',
      ['line', 'line level'],
      ['balanced', 'balanced line'],
      ['speaker', 'speaker level'],
      ['digital', 'digital'],
    ),
    cleanV: number('Loudest clean voltage', 'volts'),
    bridgedOutput: flag('Both leads carry signal, none is ground'),
    factoryProcessing: {
      type: 'checks',
      label: 'The factory adds',
      options: [
        ['equalizer', 'equalizer'],
        ['delay', 'delay'],
        ['phase', 'phase'],
        ['loudness', 'loudness'],
        ['compression', 'compression'],
      ],
    },
    factoryProcessingCorrected: flag('That is undone'),
    referenceStep: number('Reference volume step', 'number'),
    cleanStep: number('Last clean step found', 'number'),
    turnOnLimitA: number('Its turn-on output gives', 'amperes'),
    turnsOn: parts('Turns on', 'processor', 'amplifier'),
    turnOnRelay: flag('Through a relay'),
    groundAt,
    supplyV: supply,
    note,
  },
  processor: {
    name,
    noiseUv: number('Noise at its outputs', 'microvolts'),
    headroomDb: number('Headroom', 'decibels'),
    latencyMs: number('Latency', 'milliseconds'),
    rateHz: number('Rate', 'hertz'),
    currentA: number('Draws', 'amperes'),
    turnOnA: number('Its turn-on input draws', 'amperes'),
    groundAt,
    supplyV: supply,
    note,
  },
  amplifier: {
    name,
    class: choice('Class', ['A', 'A'], ['AB', 'AB'], ['G', 'G'], ['H', 'H'], ['D', 'D'], ['D-sub', 'D, sub only']),
    channels: { type: 'ratings', label: 'Channels and continuous power' },
    bridgeable: flag('Pairs may be bridged'),
    fullBridge: flag('Each channel is bridged inside'),
    sensitivityMinV: number('Full power from, most sensitive', 'volts'),
    sensitivityMaxV: number('Full power from, least sensitive', 'volts'),
    ownFusesA: { type: 'numbers', label: 'Its own fuses', quantity: 'amperes', hint: 'each one, such as 25 25' },
    supplyMinV: number('Works down to', 'volts'),
    supplyV: supply,
    regulated: flag('Same power from 11 to 15 V'),
    efficiency: number('Efficiency', 'number', '0.55 class AB, 0.8 class D'),
    idleA: number('Idle current', 'amperes'),
    turnOnA: number('Its turn-on input draws', 'amperes'),
    inputNoiseUv: number('Noise at its input', 'microvolts'),
    ambientC: number('Air where it sits', 'celsius'),
    limiter: flag('It has a limiter'),
    groundAt,
    fullTonePlanned: flag('A tone at full level will be played'),
    note,
  },
  channel: {
    name,
    output: { type: 'terminal', label: 'Processor output', of: 'processor-output' },
    amplifier: { type: 'terminal', label: 'Amplifier channel', of: 'amplifier' },
    inputs: { type: 'terminals', label: 'Plays', of: 'processor-input' },
    highPass: { type: 'edge', label: 'High-pass' },
    lowPass: { type: 'edge', label: 'Low-pass' },
    eq: { type: 'bands', label: 'Equaliser: a boost costs as much of what the channel can do there' },
    polarity,
    gainDb: number('Gain', 'decibels'),
    delayMs: number('Delay', 'milliseconds'),
    overlapDb: number('Overlap', 'decibels', 'how far music may clip: 0 hard, 3 to 5 usual'),
    balancedInput: flag('Its amplifier input is balanced'),
    spare: flag('Left over on purpose'),
    note,
  },
  load: {
    name,
    amplifier: { type: 'terminal', label: 'Amplifier channel', of: 'amplifier' },
    bridgedWith: { type: 'terminal', label: 'Bridged with', of: 'amplifier' },
    network: { type: 'wiring', label: 'Drivers and how their coils are joined' },
    polarity,
    duty: number('Duty of what is played', 'number', '0.2 full range, 0.33 for a sub'),
    minusShared: flag('Its minus is joined to another or to ground'),
    note,
  },
  driver: {
    name,
    make: text('Maker'),
    model: text('Model'),
    kind: choice(
      'Plays',
      ['tweeter', 'treble'],
      ['mid', 'middle'],
      ['midbass', 'midbass'],
      ['full-range', 'full range'],
      ['sub', 'bass'],
    ),
    place: part('Place', 'place'),
    enclosure: part('Box', 'enclosure'),
    intendedUse: choice(
      'Made for',
      ['low-power', 'low power'],
      ['general', 'general use'],
      ['high-power', 'high power'],
    ),
    coils: number('Coils', 'number'),
    coilOhm: number('Each coil, nominal', 'ohms'),
    reOhm: number('Each coil, direct current', 'ohms'),
    orderedCoilOhm: number('Coil ordered', 'ohms', 'if the sheet says something else'),
    thermalW: number('Continuous power it stands', 'watts'),
    xmaxMm: number('Stroke, one way', 'millimetres', 'peak; half of a peak-to-peak figure'),
    xmechMm: number('Stroke that damages, one way', 'millimetres'),
    fsHz: number('Resonance Fs', 'hertz'),
    qms: number('Qms', 'number'),
    qes: number('Qes', 'number'),
    qts: number('Qts', 'number'),
    vasL: number('Vas', 'litres'),
    sdCm2: number('Cone area Sd', 'squareCentimetres'),
    mmsG: number('Moving mass Mms', 'grams'),
    cmsMmPerN: number('Compliance Cms', 'perNewton'),
    blTm: number('Force factor Bl', 'teslaMetres'),
    leMh: number('Inductance Le', 'millihenries'),
    sensitivityDb: number('Sensitivity', 'decibels'),
    sensitivityAt: choice('measured at', ['1W', '1 W'], ['2.83V', '2.83 V']),
    minimumHighPassHz: number('Lowest crossover its maker states', 'hertz'),
    breakupHz: number('Breaks up from', 'hertz'),
    depthMm: number('Mounting depth', 'millimetres'),
    coneDiameterMm: number('Cone diameter', 'millimetres'),
    ventDiameterMm: number('Vent behind the magnet', 'millimetres', 'its diameter; 0 where there is none'),
    gapUnderConeMm: number('Free gap before its cone', 'millimetres'),
    facing: choice('Faces', ['listener', 'the listener'], ['up', 'up'], ['down', 'down'], ['side', 'sideways']),
    massKg: number('Mass', 'kilograms'),
    targetV: number('Target voltage', 'volts'),
    note,
  },
  enclosure: {
    name,
    kind: choice(
      'Kind',
      ['infinite-baffle', 'none: door or shelf'],
      ['sealed', 'closed'],
      ['vented', 'vented'],
      ['bandpass4', 'bandpass'],
    ),
    netL: number('Volume, net', 'litres', 'without driver, port and bracing'),
    rearL: number('Chamber behind the cone, net', 'litres', 'of a bandpass box'),
    fillGain: number('Gain by fill', 'number', '1 none, 1.1 to 1.2 polyester'),
    tuningHz: number('Tuned to', 'hertz'),
    portAreaCm2: number('Area of all ports', 'squareCentimetres'),
    place: part('Place', 'place'),
    covers: parts('Behind', 'cover'),
    panelMm: number('Thickness of its board', 'millimetres', '18 up to 60 litres, 25 above or over 1000 W'),
    massKg: number('Mass with driver', 'kilograms'),
    structuralFixings: number('Fixings into structure', 'number', 'bolts into metal, not into trim'),
    sheetNetL: number('Volume the sheet asks for', 'litres'),
    note,
  },
  battery: {
    name,
    chemistry: choice('Kind', ['flooded', 'flooded'], ['agm', 'AGM'], ['lithium', 'lithium']),
    capacityAh: number('Capacity', 'ampereHours'),
    voltageV: number('Voltage', 'volts'),
    centreTapUsed: flag('A load is taken from the middle of a pair'),
    place: text('Where'),
    note,
  },
  block: { name, place: text('Where'), note },
  run: {
    name,
    from: part('From', 'battery', 'block'),
    to: part('To', 'block', 'amplifier', 'processor', 'source', 'battery'),
    areaMm2: { type: 'cable', label: 'Cable size' },
    material,
    lengthM: number('Length along the route', 'metres'),
    under,
    near,
    covering: choice('Lies', ['open', 'in open air'], ['under-trim', 'under trim'], ['in-foam', 'in foam']),
    bundled: number('Loaded cables in one bundle', 'number'),
    insulationC: number('Insulation stands', 'celsius', '105 unless the cable says so'),
    ambientC: number('Warmest air on its way', 'celsius'),
    allowedA: number('Its maker allows', 'amperes', 'replaces the reckoned figure'),
    sizeFactor: number('Metal against its mark', 'number', '0.9 unless weighed'),
    shortTested: flag('Checked for a short to body'),
    note,
  },
  fuse: {
    run: part('In the run', 'run'),
    ratedA: number('Rating', 'amperes'),
    family: choice(
      'Family',
      ['blade-mini', 'blade, small'],
      ['blade', 'blade'],
      ['blade-large', 'blade, large'],
      ['strip-30', 'strip, 30 mm'],
      ['strip-51', 'strip, 51 mm'],
      ['flat-link', 'flat link'],
      ['glass-6x32', 'glass tube'],
    ),
    atM: number('From the feeding end', 'metres'),
    fitted: flag('It is in'),
    note,
  },
  ground: {
    of: part('Of', 'amplifier', 'processor', 'source', 'block', 'battery'),
    areaMm2: { type: 'cable', label: 'Cable size' },
    material,
    lengthM: number('Length', 'metres'),
    point: text('Body metal at'),
    fromProcessorM: number('From the ground of the processor', 'metres'),
    note,
  },
  lead: {
    name,
    kind: choice('Kind', ['speaker', 'speaker'], ['signal', 'signal'], ['turn-on', 'turn-on']),
    from: { type: 'terminal', label: 'From', of: 'any', orPart: true },
    to: { type: 'terminal', label: 'To', of: 'any', orPart: true },
    colour: text('Colour', ['red', 'black', 'blue', 'brown', 'green', 'violet', 'grey', 'white', 'orange', 'yellow']),
    areaMm2: { type: 'cable', label: 'Cable size' },
    material,
    lengthM: number('Length', 'metres'),
    under,
    near,
    balanced: flag('Balanced'),
    besidePowerM: number('Runs beside power for', 'metres'),
    note,
  },
  reading: {
    of: { type: 'part', label: 'Of', among: ['lead', 'driver', 'ground', 'battery'] },
    quantity: choice(
      'What was read',
      ['resistance', 'resistance, ohm'],
      ['to-body', 'to body metal, ohm'],
      ['ground-drop', 'drop to battery minus, V'],
      ['resting-voltage', 'resting voltage, V'],
    ),
    value: { type: 'reading', label: 'The meter shows' },
    currentA: number('Current meanwhile', 'amperes'),
    probesOhm: number('Probes together read', 'ohms'),
    temperatureC: number('Temperature', 'celsius'),
    note,
  },
  holdPoint: {
    name,
    of: {
      type: 'part',
      label: 'About',
      among: ['lead', 'run', 'fuse', 'ground', 'driver', 'amplifier', 'processor', 'enclosure', 'battery'],
    },
    behind: parts('Behind', 'cover'),
    proof: text('Proof'),
    note,
  },
};

/** What a part is called. */
export const kindWords: { [Kind in PartKind]: [one: string, many: string] } = {
  vehicle: ['vehicle', 'Vehicle'],
  cover: ['cover', 'Covers'],
  place: ['place', 'Places'],
  seat: ['seat', 'Seats'],
  source: ['source', 'Sources'],
  processor: ['processor', 'Processors'],
  amplifier: ['amplifier', 'Amplifiers'],
  channel: ['channel', 'Channels'],
  load: ['load', 'Loads'],
  driver: ['driver', 'Drivers'],
  enclosure: ['box', 'Boxes'],
  battery: ['battery', 'Batteries'],
  block: ['block', 'Blocks'],
  run: ['power run', 'Power runs'],
  fuse: ['fuse', 'Fuses'],
  ground: ['ground lead', 'Ground leads'],
  lead: ['lead', 'Leads'],
  reading: ['meter reading', 'Meter readings'],
  holdPoint: ['hold point', 'Hold points'],
};
