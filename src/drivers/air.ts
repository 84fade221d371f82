// The air of all forecasts: a car at about 20 degrees.

/** Density of air, kg/m3. */
export const airKgPerM3 = 1.204;

/** Speed of sound, m/s. */
export const soundMPerS = 343.2;

/** Sound pressure of 0 dB SPL, Pa. */
export const zeroDbPa = 20e-6;

/** Stiffness of air, rho c^2, Pa: divided by a volume in m3 it is what the air in it resists. */
export const airStiffnessPa = airKgPerM3 * soundMPerS ** 2;
