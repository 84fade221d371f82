// What a processor can be dialled to, nearest to what is wanted.

/** A value on the scale of a dial, and whether the dial had to move it. */
export interface Dialled {
  value: number;
  moved: boolean;
}

interface Dial {
  step?: number | undefined;
  min?: number | undefined;
  max?: number | undefined;
  /** Never under what is wanted: a high-pass may only rise. */
  up?: boolean;
}

/** Far below any step, far above the error of a quotient. */
const HAIR = 1e-9;

/**
 * The nearest value that a dial has: whole steps from 0, inside its ends.
 *
 * @param wanted  any unit; the dial's numbers are in the same one
 */
export function dialled(wanted: number, { step, min, max, up = false }: Dial): Dialled {
  const steps = step === undefined ? wanted : wanted / step;
  const whole = up ? Math.ceil(steps - HAIR) : Math.round(steps);
  // Steps such as 0.1 leave digits behind that nobody dials.
  const onStep = step === undefined ? wanted : Number((whole * step).toPrecision(12));
  const value = Math.min(max ?? Number.POSITIVE_INFINITY, Math.max(min ?? Number.NEGATIVE_INFINITY, onStep));
  return { value, moved: Math.abs(value - wanted) > HAIR * Math.max(1, Math.abs(wanted)) };
}
