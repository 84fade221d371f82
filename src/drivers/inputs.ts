// Drivers, boxes and filters as inputs of calculations.
import { choice, type Input, number, optional, orElse, record } from '../base/calculation-inputs.ts';
import { type Box, qlDefault } from './box.ts';
import { type Driver, massFromVas } from './driver.ts';

const positive = { above: 0 };

/** A driver's parameters as a sheet writes them, mass or equivalent volume. */
export const driverFields = {
  fsHz: number('Hz', positive),
  reOhm: number('ohm', positive),
  qms: number('', positive),
  qes: number('', positive),
  sdCm2: number('cm2', positive),
  mmsG: optional(number('g', positive), 'from vasL'),
  vasL: optional(number('L', positive), 'from mmsG, which wins'),
};

const fullDriver = {
  ...driverFields,
  leMh: optional(number('mH', { min: 0 })),
  semiK: optional(number('ohm s^n', positive)),
  semiN: optional(number('', { min: 0.5, max: 1 })),
};

/** The typed driver of a sheet's numbers. One of `mmsG` and `vasL` must be there. */
export function driverOf(sheet: {
  fsHz: number;
  reOhm: number;
  qms: number;
  qes: number;
  sdCm2: number;
  mmsG?: number | undefined;
  vasL?: number | undefined;
  leMh?: number | undefined;
  semiK?: number | undefined;
  semiN?: number | undefined;
}): Driver {
  const { fsHz, reOhm, qms, qes, mmsG, vasL = Number.NaN, leMh = 0, semiK: k, semiN: n } = sheet;
  const sdM2 = sheet.sdCm2 / 1e4;
  const mmsKg = mmsG === undefined ? massFromVas(fsHz, sdM2, vasL / 1000) : mmsG / 1000;
  return {
    fsHz,
    reOhm,
    qms,
    qes,
    sdM2,
    mmsKg,
    coil: k === undefined || n === undefined ? { leH: leMh / 1000 } : { k, n },
  };
}

const isGiven = (value: unknown) => value !== undefined && value !== null;

const sheetInput = record(fullDriver);

/** A driver as an object of its sheet's values. */
export const driverInput: Input<Driver> = {
  form: sheetInput.form,
  read(value, where, say) {
    let fine = true;
    const sheet = sheetInput.read(value, where, (fault) => {
      fine = false;
      say(fault);
    });
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return undefined as unknown as Driver;
    const given = (key: string) => Object.hasOwn(value, key) && isGiven((value as Record<string, unknown>)[key]);
    const need = (key: string, form: string) => {
      fine = false;
      say({ code: 'missing', message: `${where}.${key} is missing.`, where: `${where}.${key}`, mend: `Give ${form}.` });
    };
    if (!given('mmsG') && !given('vasL')) need('mmsG', 'mmsG in g or vasL in L');
    if (given('semiK') && !given('semiN')) need('semiN', 'semiN, 0.5 to 1, with semiK');
    if (given('semiN') && !given('semiK')) need('semiK', 'semiK, ohm s^n, with semiN');
    if (given('leMh') && (given('semiK') || given('semiN'))) {
      fine = false;
      const message = `${where} has both leMh and semiK: a coil is described by one of them.`;
      say({ code: 'contradiction', message, where: `${where}.leMh`, mend: 'Leave out leMh.' });
    }
    return fine ? driverOf(sheet) : (undefined as unknown as Driver);
  },
};

const kinds = ['infinite-baffle', 'sealed', 'vented', 'bandpass4'] as const;
type Kind = (typeof kinds)[number];

const boxFields = {
  vbL: number('L', positive),
  vrL: number('L', positive),
  fbHz: number('Hz', positive),
  ql: number('', positive),
  fillGain: number('', { above: 0, max: 1.4 }),
  portAreaCm2: number('cm2', positive),
};

const needed: Record<Kind, (keyof typeof boxFields)[]> = {
  'infinite-baffle': [],
  sealed: ['vbL'],
  vented: ['vbL', 'fbHz'],
  bandpass4: ['vrL', 'vbL', 'fbHz'],
};

/** A box as an object: its kind, and what that kind needs. */
export function boxInput<K extends Kind>(allowed: readonly K[]): Input<Box & { kind: K }> {
  const kindInput = choice<Kind>(allowed);
  const form = `{kind: ${kindInput.form}; vbL: net L; vrL: rear L; fbHz: tuning Hz; ql: losses (default: 7, none for sealed); fillGain: to 1.4 (default: 1); portAreaCm2: of all ports}`;
  return {
    form,
    read(value, where, say) {
      const none = undefined as unknown as Box & { kind: K };
      if (typeof value !== 'object' || value === null || Array.isArray(value)) {
        say({ code: 'missing', message: `${where} is missing.`, where, mend: `Give ${where}: ${form}.` });
        return none;
      }
      let fine = true;
      const heard = (fault: Parameters<typeof say>[0]) => {
        fine = false;
        say(fault);
      };
      const own = (key: string) => (Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined);
      const kind = kindInput.read(own('kind'), `${where}.kind`, heard);
      const must = new Set<string>(kinds.includes(kind) ? needed[kind] : []);
      // Losses of a sealed box are told by a pair.
      if (kind === 'sealed' && isGiven(own('ql'))) must.add('fbHz');
      const read: Partial<Record<keyof typeof boxFields, number>> = {};
      for (const [key, input] of Object.entries(boxFields)) {
        if (!isGiven(own(key)) && !must.has(key)) continue;
        read[key as keyof typeof boxFields] = input.read(own(key), `${where}.${key}`, heard);
      }
      return fine ? (boxOf(kind, read) as Box & { kind: K }) : none;
    },
  };
}

function boxOf(kind: Kind, read: Partial<Record<keyof typeof boxFields, number>>): Box {
  const { vbL = 0, vrL = 0, fbHz = 0, ql, fillGain = 1, portAreaCm2 } = read;
  const vbM3 = vbL / 1000;
  if (kind === 'infinite-baffle') return { kind };
  if (kind === 'sealed') return { kind, vbM3, fillGain, ...(ql === undefined ? {} : { leak: { ql, fbHz } }) };
  const port = portAreaCm2 === undefined ? {} : { portAreaM2: portAreaCm2 / 1e4 };
  const front = { vbM3, fillGain, fbHz, ql: ql ?? qlDefault, ...port };
  return kind === 'vented' ? { kind, ...front } : { kind, vrM3: vrL / 1000, ...front };
}

/** Any box; an infinite baffle when none is given. */
export const anyBox = orElse<Box>(boxInput(kinds), { kind: 'infinite-baffle' }, 'infinite-baffle');

/** Any box, which must be given. */
export const givenBox: Input<Box> = boxInput(kinds);

/** Resistance between amplifier and coil. */
export const sourceInput = orElse(number('ohm', { min: 0 }), 0);

/** What damping material adds to a volume. */
export const fillInput = orElse(number('', { above: 0, max: 1.4 }), 1);
