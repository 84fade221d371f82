import { describe, expect, test } from 'vitest';
import { alternatorTones, type NoiseRecipe, simulatedNoise } from '../../../test/noise-hunt/simulated-noise.ts';
import { type Recording, recordingFromArrays } from '../../signals/recording.ts';
import type { GivenTakes } from './given-takes.ts';
import { type HuntOptions, type NoiseHunt, noiseHunt } from './noise-hunt.ts';

function take(recipe: NoiseRecipe, stepSize = 0): Recording {
  return recordingFromArrays([simulatedNoise(recipe)], recipe.rateHz ?? 16_000, stepSize);
}

function hunted(given: GivenTakes, options: HuntOptions = {}): NoiseHunt {
  const hunt = noiseHunt(given, options);
  if (!hunt.ok) throw new Error(JSON.stringify(hunt.issues));
  return hunt.value;
}

const codes = (given: GivenTakes) => {
  const hunt = noiseHunt(given);
  return hunt.ok ? [] : hunt.issues.map(({ code }) => code);
};

/** Idle at 820 rpm and 2150 rpm with a pulley ratio of 2.6 and six pole pairs. */
const [slow, fast] = [alternatorTones(820, 2.6, 6), alternatorTones(2150, 2.6, 6)];
const off = take({ seed: 10 });
const rippleIdle = take({ seed: 11, tones: [{ fHz: slow.rippleHz, rms: 6e-4 }] });
const rippleRevs = take({ seed: 12, tones: [{ fHz: fast.rippleHz, rms: 6e-4 }] });
const whine = {
  off: { recording: off },
  idle: { recording: rippleIdle, rpm: 820 },
  revs: { recording: rippleRevs, rpm: 2150 },
};

describe('tones', () => {
  test('of an alternator’s ripple are told by both speeds, and give its ratio times its pole pairs', () => {
    const { tones, verdict, alternatorRatioTimesPolePairs, next } = hunted(whine);
    expect(tones).toHaveLength(1);
    expect(tones[0]).toMatchObject({ class: 'alternator ripple', audible: true, withinAim: false, offHz: null });
    expect(tones[0].idleHz).toBeCloseTo(slow.rippleHz, 0);
    expect(tones[0].revsHz).toBeCloseTo(fast.rippleHz, 0);
    expect(alternatorRatioTimesPolePairs).toBeCloseTo(15.6, 1);
    expect(verdict).toBe(
      'One tone climbs with the engine, at the alternator’s ripple: it is the charging current; where it enters is not known yet.',
    );
    expect(next).toMatchObject({ hunted: 'whine', test: 'sourceUnplugged' });
    expect(next.cautions.join(' ')).toMatch(/exhaust .* belts/);
  });

  test('of a failed diode send for the alternator first, with the meter’s limit and what each answer will say', () => {
    const failed = (rpm: number, seed: number) => {
      const { phaseHz } = alternatorTones(rpm, 2.6, 6);
      const tones = [phaseHz, 2 * phaseHz].map((fHz) => ({ fHz, rms: 1e-3 }));
      return { recording: take({ seed, tones }), rpm };
    };
    const takes = { idle: failed(820, 20), revs: failed(2150, 21) };
    const { tones, next, alternatorRatioTimesPolePairs } = hunted(takes);
    expect(tones.map((tone) => tone.class)).toEqual(['alternator phase', 'alternator phase']);
    expect(tones.map(({ withinAim }) => withinAim)).toEqual([null, null]);
    expect(alternatorRatioTimesPolePairs).toBeNull();
    expect(next).toMatchObject({ entry: 'alternator', test: 'alternatorRippleMv' });
    expect(next.outcomes[0].answer).toBe('over 200 mV');
    expect(hunted(takes, { tried: { alternatorRippleMv: 350 } }).next).toMatchObject({
      entry: 'alternator',
      test: null,
    });
    expect(hunted(takes, { tried: { alternatorRippleMv: 40 } }).next.test).toBe('sourceUnplugged');
  });

  test('of the mains are the set-up’s until the laptop runs on its battery', () => {
    const humming = (seed: number) => ({
      recording: take({ seed, tones: [50, 100, 150].map((fHz) => ({ fHz, rms: 1e-3 })) }),
    });
    const takes = { off: humming(30), idle: { ...humming(31), rpm: 820 }, revs: { ...humming(32), rpm: 2150 } };
    const { tones, next, verdict } = hunted(takes);
    expect(tones.map((tone) => tone.class)).toEqual(['mains', 'mains', 'mains']);
    expect(next).toMatchObject({ hunted: 'hum', entry: 'measuring set-up', test: 'laptopOnBattery' });
    expect(verdict).toMatch(/^Three tones are mains hum; it most likely enters by the measuring set-up/);
    expect(hunted(takes, { tried: { laptopOnBattery: true } }).next.test).toBe('sourceUnplugged');
    expect(hunted({ off: humming(33) }).tones.map((tone) => tone.class)).toEqual(['mains', 'mains', 'mains']);
  });

  test('read off a needle that is 2 % out still pair up', () => {
    const tones = (rpm: number) => [2, 8, 15.6 * 6].map((order) => ({ fHz: (order * rpm) / 60, rms: 1e-3 }));
    const takes = {
      idle: { recording: take({ seed: 40, tones: tones(820) }), rpm: 820 },
      revs: { recording: take({ seed: 41, tones: tones(2150) }), rpm: 2190 },
    };
    expect(hunted(takes, { rpmFrom: 'counter' }).tones.map((tone) => tone.class)).toContain('cannot tell');
    expect(new Set(hunted(takes, { rpmFrom: 'needle' }).tones.map((tone) => tone.class))).toEqual(
      new Set(['engine or ignition', 'alternator ripple']),
    );
  });

  test('without noted speeds are followed where two or more agree on a ratio, and else not told', () => {
    const phases = (rpm: number, seed: number) => {
      const { phaseHz } = alternatorTones(rpm, 2.6, 6);
      return {
        recording: take({ seed, tones: [phaseHz, 2 * phaseHz, 3 * phaseHz].map((fHz) => ({ fHz, rms: 1e-3 })) }),
      };
    };
    const followed = hunted({ idle: phases(820, 50), revs: phases(2150, 51) }).tones;
    // 213.2, 426.4 and 639.6 Hz: orders 11.6 to 21.3, 23.3 to 42.6 and 34.9 to 64.0 at 1100 to 600 rpm.
    const byPlace = [...followed].sort((a, b) => (a.idleHz ?? 0) - (b.idleHz ?? 0));
    expect(byPlace.map((tone) => tone.class)).toEqual(['alternator phase', 'alternator phase', 'cannot tell']);
    expect(byPlace.every(({ order }) => order === null)).toBe(true);
    const lone = hunted({ idle: { recording: rippleIdle }, revs: { recording: rippleRevs } });
    expect(lone.tones.map((tone) => tone.class)).toEqual(['cannot tell', 'cannot tell']);
    expect(lone.next).toMatchObject({ record: 'revs', test: null });
    const one = hunted({ idle: { ...phases(820, 50), rpm: 820 }, revs: phases(2150, 51) }).tones;
    expect(one.map((tone) => tone.class)).toEqual(['alternator phase', 'alternator phase', 'alternator phase']);
  });

  test('at one speed cannot be told to move: the other speed is asked for', () => {
    const { tones, next, cannotSay } = hunted({ off: { recording: off }, idle: { recording: rippleIdle, rpm: 820 } });
    expect(tones.map((tone) => tone.class)).toEqual(['cannot tell']);
    expect(next).toMatchObject({ record: 'revs', hunted: 'whine' });
    expect(next.next).toMatch(/1500 to 2500 rpm/);
    expect(cannotSay[0].why).toMatch(/One engine speed/);
  });

  test('that the engine makes itself are not hunted: a take with the system off tells', () => {
    const firing = (rpm: number, seed: number) => take({ seed, tones: [{ fHz: rpm / 30, rms: 2e-3 }] });
    const takes = {
      off: { recording: off },
      idle: { recording: firing(1200, 60), rpm: 1200 },
      revs: { recording: firing(2400, 61), rpm: 2400 },
    };
    expect(hunted(takes).next).toMatchObject({ record: 'engineAlone' });
    const own = hunted({ ...takes, engineAlone: { recording: firing(1200, 62) } });
    expect(own.tones[0]).toMatchObject({ class: 'engine or ignition', carsOwn: true });
    expect(own.next.hunted).not.toBe('whine');
    expect(own.verdict).toBe('What is heard is the car’s own sound, not the system’s.');
    const added = hunted({ ...takes, engineAlone: { recording: take({ seed: 63 }) } });
    expect(added.tones[0].carsOwn).toBe(false);
    expect(added.next).toMatchObject({ hunted: 'whine', test: 'sourceUnplugged' });
  });

  test('at multiples of the engine’s orders are not taken for a failed diode', () => {
    // Firing twice a turn, with overtones up to order 12; a sound alternator's ripple beside them.
    const running = (rpm: number, seed: number, ripple: boolean) => {
      const orders = [2, 4, 6, 8, 10, 12];
      const tones = [...orders, ...(ripple ? [93.6] : [])].map((order) => ({ fHz: (order * rpm) / 60, rms: 1e-3 }));
      return { recording: take({ seed, tones }), rpm };
    };
    const alone = hunted({ idle: running(1200, 64, false), revs: running(2400, 65, false) });
    expect(alone.tones.some((tone) => tone.class === 'alternator phase')).toBe(true);
    expect(alone.tones.every(({ mayBeEngine }) => mayBeEngine)).toBe(true);
    expect(alone.next).toMatchObject({ record: 'engineAlone', test: null });
    expect(alone.verdict).toMatch(/the engine itself may make them/);
    const whining = hunted({ idle: running(1200, 66, true), revs: running(2400, 67, true) });
    expect(whining.next).toMatchObject({ hunted: 'whine', test: 'sourceUnplugged' });
    expect(whining.verdict).toMatch(/^One tone climbs with the engine, at the alternator’s ripple/);
  });

  test('in one take only, though both speeds are noted, are recorded again', () => {
    const lone = hunted({
      idle: { recording: rippleIdle, rpm: 820 },
      revs: { recording: take({ seed: 68 }), rpm: 2150 },
    });
    expect(lone.tones.map((tone) => tone.class)).toEqual(['cannot tell']);
    expect(lone.next).toMatchObject({ record: 'revs', reason: lone.tones[0].why });
  });

  test('that stand still lead to the consumers, one after the other', () => {
    const pump = (seed: number) => ({ recording: take({ seed, tones: [{ fHz: 312, rms: 1e-3 }] }) });
    const takes = { off: pump(70), idle: { ...pump(71), rpm: 820 }, revs: { ...pump(72), rpm: 2150 } };
    expect(hunted(takes).tones.map((tone) => tone.class)).toEqual(['fixed']);
    expect(hunted(takes).next).toMatchObject({ hunted: 'fixed tone', test: 'consumersOff' });
    expect(hunted(takes, { tried: { consumersOff: false } }).next.entry).toBe('shared path of a consumer');
  });
});

describe('levels', () => {
  test('are A-weighted and by octave, relative without a calibration and sound pressure with one', () => {
    // White noise of rms 1e-3 up to 8 kHz: 707 to 1414 Hz holds 707 of 8000 Hz, -60 - 10.53 dB.
    const { takes, reference } = hunted({ off: { recording: off } });
    expect(reference).toBe('full-scale');
    const kilo = takes[0].octaves.find(({ fHz }) => fHz === 1000);
    expect(Math.abs((kilo?.levelDb ?? 0) + 70.53)).toBeLessThan(0.3);
    const spl = hunted({ off: { recording: off } }, { fullScaleSplDb: 100 });
    expect(spl.reference).toBe('spl');
    expect(spl.takes[0].aWeightedDb).toBeCloseTo((takes[0].aWeightedDb ?? 0) + 100, 9);
  });

  test('of octaves leave tones out', () => {
    const octave = (recording: Recording) => hunted({ off: { recording } }).takes[0].octaves[3].levelDb;
    const clean = octave(take({ seed: 80 }));
    expect(Math.abs(octave(take({ seed: 80, tones: [{ fHz: 1000, rms: 0.01 }] })) - clean)).toBeLessThan(0.3);
  });

  test('of hiss are held against 30 dB(A) or 6 dB over the system off, and not judged without either', () => {
    const quiet = { recording: take({ seed: 81, hiss: 1e-3 / 4 }) };
    const like = { recording: take({ seed: 82, hiss: 1e-3 / 1.5 }) };
    const hiss = (given: GivenTakes, fullScaleSplDb?: number) =>
      hunted({ off: { recording: off }, ...given }, { fullScaleSplDb }).hiss;
    expect(hiss({})?.verdict).toBe('cannot say');
    // 20 log 1.5 = 3.5 dB, 20 log 4 = 12 dB; A-weighted, the hiss lies at about -60 dB re full scale.
    expect(hiss({ systemOff: like })?.verdict).toBe('within');
    expect(hiss({ systemOff: quiet })?.verdict).toBe('cannot say');
    expect(hiss({ systemOff: quiet }, 100)?.verdict).toBe('above');
    expect(hiss({}, 100)?.verdict).toBe('cannot say');
    expect(hiss({}, 85)?.verdict).toBe('within');
    expect(hiss({ systemOff: quiet })?.overSystemOff[0].overDb).toBeCloseTo(12.04, 0);
    const asks = hunted({ off: { recording: off } }, { fullScaleSplDb: 100 }).next;
    expect(asks).toMatchObject({ record: 'systemOff' });
    expect(hunted({ off: { recording: off } }).next).toMatchObject({ record: 'idle' });
  });

  test('of hiss that stands out of the system off is hunted, though relative levels do not judge it', () => {
    const takes = { off: { recording: off }, systemOff: { recording: take({ seed: 84, hiss: 1e-4 }) } };
    const { hiss, next } = hunted(takes);
    expect([hiss?.verdict, next.test]).toEqual(['cannot say', 'followsVolume']);
    const heard = hunted({ off: { recording: off } }, { heard: 'hiss' });
    expect(heard.verdict).toBe('A hiss is heard that these takes cannot judge; where it enters is not known yet.');
  });

  test('of hiss above the aim lead to volume and gain', () => {
    const takes = { off: { recording: off }, systemOff: { recording: take({ seed: 83, hiss: 1e-4 }) } };
    const step = (tried: HuntOptions['tried']) => hunted(takes, { fullScaleSplDb: 100, tried }).next;
    expect(step({})).toMatchObject({ hunted: 'hiss', test: 'followsVolume' });
    expect(step({ followsVolume: true }).entry).toBe('source');
    expect(step({ followsVolume: false }).test).toBe('fallsWithGain');
    expect(step({ followsVolume: false, fallsWithGain: true }).entry).toBe('before the amplifier');
    expect(step({ followsVolume: false, fallsWithGain: false }).entry).toBe('amplifier');
  });
});

describe('takes that carry no answer', () => {
  test.each([
    ['too short', take({ seconds: 3.9 }), 'too-short'],
    ['all zeros', take({ hiss: 0 }), 'silent'],
    [
      'clipped',
      recordingFromArrays([simulatedNoise({ hiss: 0.6 }).map((x) => Math.max(-1, Math.min(1, x)))], 16_000),
      'clipped',
    ],
    ['smaller than the recorder’s step', take({ hiss: 1e-5 }, 2 ** -15), 'too-quiet'],
    ['gated', recordingFromArrays([simulatedNoise({}).map((x, n) => (n % 4000 < 1000 ? 0 : x))], 16_000), 'gated'],
  ])('%s: no level, no tone, and what to do', (_, recording, code) => {
    const { takes, verdict, next, tones, hiss } = hunted({ off: { recording } });
    expect(takes[0]).toMatchObject({ usable: false, aWeightedDb: null, octaves: [], problem: { code } });
    expect([tones, hiss]).toEqual([[], null]);
    expect(verdict).toBe('None of the takes can be used.');
    expect(next).toMatchObject({ record: 'off', reason: takes[0].problem?.message, next: takes[0].problem?.mend });
  });

  test('bad calls are issues with a way out', () => {
    expect(codes({})).toEqual(['no-take']);
    expect(codes({ systemOff: { recording: off } })).toEqual(['no-take']);
    expect(codes({ off: { recording: off, channel: 1 } })).toEqual(['input-missing']);
    expect(codes({ idle: { recording: off, rpm: 50 } })).toEqual(['rpm-out-of-range']);
    expect(codes({ idle: { recording: off, rpm: 820 }, revs: { recording: off, rpm: 850 } })).toEqual([
      'speeds-too-close',
    ]);
  });
});

test('what nobody hears is not hunted: takes of plain noise end the hunt', () => {
  const takes = {
    off: { recording: off },
    idle: { recording: take({ seed: 90 }), rpm: 820 },
    revs: { recording: take({ seed: 91 }), rpm: 2150 },
  };
  const { verdict, next } = hunted({ ...takes, systemOff: { recording: take({ seed: 92 }) } });
  expect(verdict).toBe('No tone stands out enough to be heard.');
  expect(next).toMatchObject({ hunted: null, test: null, record: null });
  expect(hunted(takes, { heard: 'whine' }).next).toMatchObject({ hunted: 'whine', test: 'sourceUnplugged' });
});

test('no number of an answer is not a number', () => {
  const text = JSON.stringify(hunted(whine), (_, value) => {
    if (typeof value === 'number' && !Number.isFinite(value)) throw new Error('not finite');
    return value;
  });
  expect(text).toContain('alternator ripple');
});
