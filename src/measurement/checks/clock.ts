// Are all samples there, and at the rate the file claims?
import type { TimedEvent } from '../timeline.ts';
import { type Check, rmsOf, type TakeContext } from './take-context.ts';

const GAP_SAMPLES = 3;
const DRIFT_PPM = 300;
const UNSTEADY_PPM = 20;

/** Samples lost or doubled between two marker groups, or two plays of a sweep, while the clock inside the groups is right. */
export const missingSamples: Check = ({ located, recording }) => {
  const { fit, match } = located;
  const displaced = match.displaced.find((group) => Math.abs(group.byS) <= 1);
  const mend = 'Record again with other programs closed; a cable is better than a wireless link.';
  if (displaced) {
    return {
      code: 'gap',
      message: `${Math.abs(displaced.byS * 1000).toFixed(1)} ms of sound were ${displaced.byS < 0 ? 'lost' : 'added'} between two groups of markers.`,
      mend,
      values: { lostMs: -displaced.byS * 1000 },
    };
  }
  if (located.addedS !== undefined) {
    const { addedS } = located;
    return {
      code: 'gap',
      message: `${Math.abs(addedS * 1000).toFixed(1)} ms of sound were ${addedS < 0 ? 'lost' : 'added'} between two plays of the sweep: the clock within each is right.`,
      mend,
      values: { lostMs: -addedS * 1000 },
    };
  }
  if (!fit || fit.slopeInside === null || match.groupsFound.length < 2) return null;
  const jump = largestJump(located);
  if (!jump) return null;
  // A marker shaken by noise leaves residuals too, but they shake inside the groups as well.
  const worst = Math.max(...fit.residuals.map(Math.abs));
  const least = GAP_SAMPLES * Math.max(1, recording.rateHz / 48_000);
  if (worst <= least || Math.abs(jump.samples) <= Math.max(least, 4 * jump.doubt)) return null;
  const lostMs = (-jump.samples / located.effectiveRateHz) * 1000;
  return {
    code: 'gap',
    message: `${Math.abs(lostMs).toFixed(1)} ms of sound were ${lostMs > 0 ? 'lost' : 'added'} between the markers: the clock inside each group is right.`,
    mend,
    atS: jump.at / recording.rateHz,
    values: { lostMs },
  };
};

/** Largest step between neighbouring groups against the clock inside the groups, samples. */
function largestJump({ fit, match }: TakeContext['located']): { samples: number; doubt: number; at: number } | null {
  if (!fit || fit.slopeInside === null) return null;
  let largest: { samples: number; doubt: number; at: number } | null = null;
  for (let g = 1; g < match.groupsFound.length; g++) {
    const steps: number[] = [];
    let distance = 0;
    let at = 0;
    match.matched.forEach((one, i) => {
      match.matched.forEach((other, j) => {
        const neighbours = one.marker.group === match.groupsFound[g - 1] && other.marker.group === match.groupsFound[g];
        if (!neighbours || fit.classes[i] !== fit.classes[j]) return;
        distance = other.marker.frame - one.marker.frame;
        at = fit.positions[i];
        steps.push(fit.positions[j] - fit.positions[i] - (fit.slopeInside ?? 0) * distance);
      });
    });
    if (steps.length === 0) continue;
    const samples = steps.reduce((sum, step) => sum + step, 0) / steps.length;
    if (!largest || Math.abs(samples) > Math.abs(largest.samples)) {
      largest = { samples, doubt: (fit.slopeInsideSigma ?? 0) * distance, at };
    }
  }
  return largest;
}

/** Stretches of one constant value with sound on both sides. */
export const zeroFilled: Check = (context) => {
  const { survey, recording } = context;
  const side = Math.round(0.005 * recording.rateHz);
  // Between sounds of a few steps no two milliseconds of exact silence fit by chance.
  const loud = 2 * (recording.stepSize || 2 ** -20);
  const runs = survey.deadRuns.filter(({ start, length, value }) => {
    if (Math.abs(value) > 0.9 * survey.peak) return false;
    // Between the events silence is no loss; there it is a gate's doing.
    const early = 0.1 * recording.rateHz;
    const within = ({ start: from, end }: TimedEvent): boolean => from - early <= start && start + length <= end;
    if (!context.events.some((event) => within(event) && start + length > event.start)) return false;
    return start >= side && rmsOf(context, start - side, side) > loud && rmsOf(context, start + length, side) > loud;
  });
  if (runs.length === 0) return null;
  const totalMs = (runs.reduce((sum, run) => sum + run.length, 0) / recording.rateHz) * 1000;
  return {
    code: 'zero-fill',
    message: `${totalMs.toFixed(0)} ms of the sound were replaced by silence, first at ${(runs[0].start / recording.rateHz).toFixed(2)} s.`,
    mend: 'Record again with other programs closed; raise the recorder’s buffer if it has one.',
    atS: runs[0].start / recording.rateHz,
    values: { totalMs, runs: runs.length },
  };
};

/** The header's rate is not the one recorded at. */
export const rateMismatch: Check = ({ located, recording }) => {
  if (located.ratio === 1) return null;
  const trueHz = Math.round((recording.rateHz * located.ratio) / 50) * 50;
  return {
    code: 'rate-mismatch',
    message: `The file says ${recording.rateHz} Hz but was recorded at ${trueHz} Hz. It has been read at the true rate.`,
    mend: 'Nothing to do for this take; set the recorder or the converter to one rate.',
    values: { headerHz: recording.rateHz, trueHz },
  };
};

/** The two clocks run apart further than ordinary devices do, or unsteadily. */
export const clockDrift: Check = (context) => {
  const { located } = context;
  if (located.how !== 'markers' || located.driftPpm === null || missingSamples(context)) return null;
  const unsteady = unsteadyPpm(context);
  if (unsteady !== null && unsteady > UNSTEADY_PPM) {
    return {
      code: 'clock-drift',
      message: `The clocks drift unsteadily, by ${unsteady.toFixed(0)} ppm within the take: no arrival times can be read.`,
      mend: 'Play the track from a cable or a stick instead of a wireless link.',
      values: { changePpm: unsteady, driftPpm: located.driftPpm },
      severity: 'limit',
    };
  }
  if (Math.abs(located.driftPpm) <= DRIFT_PPM) return null;
  return {
    code: 'clock-drift',
    message: `Recorder and player clocks differ by ${located.driftPpm.toFixed(0)} ppm. The take has been put right.`,
    mend: 'Nothing to do if it stays steady; switch speed or pitch correction off in the player.',
    values: { driftPpm: located.driftPpm },
  };
};

/** Largest change of drift between stretches that at least three groups divide, ppm; null with fewer. */
function unsteadyPpm({ located, recording }: Parameters<Check>[0]): number | null {
  const { fit, match } = located;
  if (!fit || match.groupsFound.length < 3) return null;
  const slopes: { ppm: number; sigma: number }[] = [];
  for (let g = 1; g < match.groupsFound.length; g++) {
    const [from, to] = [match.groupsFound[g - 1], match.groupsFound[g]];
    for (let i = 0; i < match.matched.length; i++) {
      for (let j = i + 1; j < match.matched.length; j++) {
        if (match.matched[i].marker.group !== from || match.matched[j].marker.group !== to) continue;
        if (fit.classes[i] !== fit.classes[j]) continue;
        const distance = match.matched[j].marker.frame - match.matched[i].marker.frame;
        if (distance < 2 * recording.rateHz) continue;
        const ppm = ((fit.positions[j] - fit.positions[i]) / distance / located.slope - 1) * 1e6;
        slopes.push({ ppm, sigma: (0.3 / distance) * 1e6 });
      }
    }
  }
  if (slopes.length < 2) return null;
  const certain = slopes.filter(({ sigma }) => sigma < 5).map(({ ppm }) => ppm);
  return certain.length < 2 ? null : Math.max(...certain) - Math.min(...certain);
}
