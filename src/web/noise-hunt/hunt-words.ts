// The words of the noise hunt on the screen.
import type { TakeRole } from '../../measurement/noise-hunt/hunt-step.ts';
import type { LevelledTone, NoiseHunt } from '../../measurement/noise-hunt/noise-hunt.ts';
import { huntTests, type TestName, type Tried } from '../../measurement/noise-hunt/tried.ts';

export const takeNames: Record<TakeRole, { name: string; how: string }> = {
  off: { name: 'Engine off', how: 'system on' },
  idle: { name: 'Idle', how: 'system on' },
  revs: { name: 'Raised revs', how: '1500 to 2500 a minute, held still' },
  systemOff: { name: 'All off', how: 'engine and system off: the car and its place' },
  engineAlone: { name: 'Engine alone', how: 'at idle, system off' },
  turnOn: { name: 'Turning on', how: 'for pops' },
  turnOff: { name: 'Turning off', how: 'for pops' },
};

/** A test in few words: what is done. */
export const testNamesShort: Record<TestName, string> = {
  laptopOnBattery: 'Laptop on its battery',
  sourceUnplugged: 'Plugs in the processor',
  followsVolume: 'Turn the volume',
  chargerUnplugged: 'Charger out',
  antennaUnplugged: 'Antenna out',
  freeLead: 'Lay a free lead',
  groundDifferenceMv: 'Measure ground to ground',
  amplifierShorted: 'Plugs in the amplifier',
  amplifierDropMv: 'Measure the drop',
  consumersOff: 'Consumers off',
  alternatorRippleMv: 'Measure at the battery',
  fallsWithGain: 'Gain down 6 dB',
  popAmplifierShorted: 'Plugs in the amplifier',
};

/** What was answered, as a person said it. */
export function answerText(test: TestName, answer: boolean | number): string {
  if (typeof answer === 'number') return `${answer} mV`;
  const [yes, no] = huntTests[test].outcomes;
  return (answer ? yes : no).answer;
}

/** What a tone is, in two or three words. */
export function toneSays({ class: found, carsOwn, audible, mayBeEngine }: LevelledTone): string {
  if (carsOwn === true) return 'the car’s own';
  const name = {
    'alternator ripple': 'alternator ripple',
    'alternator phase': mayBeEngine ? 'engine, or alternator phase' : 'alternator phase',
    'engine or ignition': mayBeEngine ? 'engine, or its own sound' : 'engine or ignition',
    mains: 'mains hum',
    fixed: 'stands still',
    'cannot tell': 'cannot tell',
  }[found];
  return audible ? name : `${name}, not heard`;
}

/** The hunt as a note in the job: what was found, what was tried, what comes next. */
export function huntNote({ verdict, tones, next }: NoiseHunt, tried: Tried): string {
  const answers = (Object.entries(tried) as [TestName, boolean | number | undefined][]).flatMap(([test, answer]) =>
    answer === undefined ? [] : [`${testNamesShort[test]}: ${answerText(test, answer)}.`],
  );
  const heard = tones.slice(0, 6).map((tone) => {
    const at = [tone.idleHz, tone.revsHz, tone.offHz].flatMap((fHz) => (fHz === null ? [] : [`${fHz.toFixed(1)} Hz`]));
    const order = tone.order === null ? '' : `, order ${tone.order.toFixed(1)}`;
    return `${at.join(' / ')}: ${toneSays(tone)}${order}, ${tone.overNoiseDb.toFixed(0)} dB over the noise.`;
  });
  return [
    `Noise hunt. ${verdict}`,
    ...heard,
    ...answers,
    `${next.test === null ? 'To do' : 'Next'}: ${next.next} (${next.reason})`,
  ].join('\n');
}
