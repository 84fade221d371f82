// The tests that halve the path of a noise, and what each answer will say.

/** What has been tried; absent: not yet. "Still there" unless the name says otherwise. */
export interface Tried {
  laptopOnBattery?: boolean | undefined;
  /** With the source unplugged and the inputs behind it shorted by plugs. */
  sourceUnplugged?: boolean | undefined;
  /** True: louder and softer with the volume control. */
  followsVolume?: boolean | undefined;
  chargerUnplugged?: boolean | undefined;
  antennaUnplugged?: boolean | undefined;
  /** With a signal lead laid freely, or an isolating transformer as a test. */
  freeLead?: boolean | undefined;
  /** AC between the case before the amplifier and the amplifier's ground at 2000 rpm, mV. */
  groundDifferenceMv?: number | undefined;
  /** With the amplifier's own inputs shorted by plugs. */
  amplifierShorted?: boolean | undefined;
  /** Drop along the amplifier's ground and supply at full current, mV. */
  amplifierDropMv?: number | undefined;
  /** With lights, blower and heaters off. */
  consumersOff?: boolean | undefined;
  /** AC at the battery's posts under load, mV RMS. */
  alternatorRippleMv?: number | undefined;
  /** True: the hiss falls as far as the amplifier's gain was turned down, 6 dB. */
  fallsWithGain?: boolean | undefined;
  /** Pops, with the amplifier's own inputs shorted by plugs. */
  popAmplifierShorted?: boolean | undefined;
}

export type TestName = keyof Tried;

export const ENGINE_RUNS =
  'The engine runs: bay door open and the exhaust led outside, for its gas kills; hands, leads and sleeves off belts and fans.';
const PLUGS = 'Volume down and amplifier off before a plug is pulled or put in.';
const BATTERY =
  'Rings and watches off and the terminal covered: a spanner between battery plus and body melts. Main fuse out and battery negative off before a power or ground lead is opened.';
const GAIN = 'Drivers that the tone could hurt stay unplugged while gains are turned.';

interface HuntTest {
  /** A question that yes, no or a number answers. */
  question: string;
  /** What the number is in; absent: yes or no. */
  unit?: 'mV';
  outcomes: { answer: string; says: string }[];
  cautions: string[];
}

const stillThere = (yes: string, no: string): HuntTest['outcomes'] => [
  { answer: 'still there', says: yes },
  { answer: 'silent', says: no },
];

/** Each test as a person meets it. */
export const huntTests: Record<TestName, HuntTest> = {
  laptopOnBattery: {
    question: 'Run the laptop on its battery, every charger pulled, and record again: is the hum still there?',
    outcomes: stillThere(
      'The system hums itself: its path is cut next.',
      'The measuring set-up made it; the car is not to blame.',
    ),
    cautions: [],
  },
  sourceUnplugged: {
    question: 'Unplug the source, short the inputs behind it with plugs, and listen again: is it still there?',
    outcomes: stillThere(
      'It enters behind the plugs: processor, amplifier or what feeds them.',
      'It enters at the source or along its signal leads.',
    ),
    cautions: [PLUGS],
  },
  followsVolume: {
    question: 'Turn the volume control: does the noise follow it?',
    outcomes: [
      { answer: 'follows it', says: 'It enters before the volume control: in the source, or in what feeds it.' },
      { answer: 'stays', says: 'It enters behind the volume control.' },
    ],
    cautions: [],
  },
  chargerUnplugged: {
    question: 'Unplug the phone’s charger and run it on its battery: is the noise still there?',
    outcomes: stillThere(
      'Not the charger: the antenna and the source’s own supply are left.',
      'The charger brings it.',
    ),
    cautions: [],
  },
  antennaUnplugged: {
    question: 'Unplug the antenna: is the noise still there?',
    outcomes: stillThere('The source’s own supply or ground brings it.', 'The antenna and its ground bring it.'),
    cautions: [],
  },
  freeLead: {
    question:
      'Lay a signal lead freely through the cabin, or put an isolating transformer in as a test: is the noise still there?',
    outcomes: stillThere(
      'Not the way of the lead: the difference between the two grounds is measured next.',
      'A loop through two grounds, or the power run beside the lead.',
    ),
    cautions: [PLUGS],
  },
  groundDifferenceMv: {
    question:
      'Measure AC between the case of what stands before the amplifier and the amplifier’s ground at 2000 rpm: how many mV?',
    unit: 'mV',
    outcomes: [
      { answer: 'over 10 mV', says: 'The two grounds differ: one common point mends it.' },
      { answer: '10 mV or less', says: 'The grounds agree: screens and plugs are checked one by one.' },
    ],
    cautions: [],
  },
  amplifierShorted: {
    question: 'Short the amplifier’s own inputs with plugs and listen again: is it still there?',
    outcomes: stillThere(
      'The amplifier itself: its supply, its ground, its gain, or a lead beside a loudspeaker lead.',
      'It enters before the amplifier.',
    ),
    cautions: [PLUGS],
  },
  amplifierDropMv: {
    question: 'Measure the drop along the amplifier’s ground, then along its supply, at full current: how many mV?',
    unit: 'mV',
    outcomes: [
      { answer: 'over 100 mV', says: 'A contact or a cable is bad: clean it, tighten it, or lay it thicker.' },
      { answer: '100 mV or less', says: 'The feed is sound: gain too high, or a lead that picks it up.' },
    ],
    cautions: [BATTERY],
  },
  consumersOff: {
    question: 'Switch lights, blower, heaters and chargers off one after the other: is it still there with all off?',
    outcomes: stillThere('No consumer brings it: the path is cut next.', 'The one that silenced it shares a path.'),
    cautions: [],
  },
  alternatorRippleMv: {
    question: 'Measure AC at the battery’s posts, lights and blower on, at 2000 rpm: how many mV RMS?',
    unit: 'mV',
    outcomes: [
      {
        answer: 'over 200 mV',
        says: 'The alternator is bad: a diode or a winding. It is mended before the system is.',
      },
      { answer: '200 mV or less', says: 'The alternator passes: the path is cut next.' },
    ],
    cautions: [BATTERY],
  },
  fallsWithGain: {
    question: 'Turn the amplifier’s gain down by 6 dB: does the hiss fall as much?',
    outcomes: [
      { answer: 'falls as much', says: 'It comes from before the amplifier: the levels between them are wrong.' },
      { answer: 'stays', says: 'The amplifier makes it.' },
    ],
    cautions: [GAIN],
  },
  popAmplifierShorted: {
    question: 'Short the amplifier’s own inputs with plugs and switch on and off again: is the pop still there?',
    outcomes: stillThere(
      'The amplifier makes it when it wakes or sleeps.',
      'What stands before the amplifier makes it, while the amplifier listens.',
    ),
    cautions: [PLUGS],
  },
};

/** The tests by name, in the order in which they are usually met. */
export const testNames = Object.keys(huntTests) as TestName[];
