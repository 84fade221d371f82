// What a speaker lead costs in level and damping.
import { calculation } from '../base/calculation.ts';
import { number, optional } from '../base/calculation-inputs.ts';
import { success } from '../base/result.ts';
import { type Conductor, conductorFrom, conductorInputs, conductorSize, ohmPerMetre } from './conductor.ts';

export interface SpeakerCable {
  /** Both conductors. */
  cableOhm: number;
  lossDb: number;
  /** Of the power that leaves the amplifier. */
  powerLostPct: number;
  /** Load over all resistance ahead of it; null where there is none. */
  dampingAtDriver: number | null;
}

/**
 * Loss and damping of a speaker lead.
 *
 * @param lengthM    0 or more, one way; both conductors are counted
 * @param loadOhm    above 0
 * @param ampDamping above 0; Infinity for an amplifier that adds nothing
 * Source: voltage divider.
 */
export function speakerCable(
  conductor: Conductor,
  lead: { lengthM: number; loadOhm: number; ampDamping: number },
): SpeakerCable {
  const { lengthM, loadOhm, ampDamping } = lead;
  const cableOhm = 2 * lengthM * ohmPerMetre(conductor);
  const aheadOhm = cableOhm + loadOhm / ampDamping;
  return {
    cableOhm,
    lossDb: 20 * Math.log10((loadOhm + cableOhm) / loadOhm),
    powerLostPct: (100 * cableOhm) / (loadOhm + cableOhm),
    dampingAtDriver: aheadOhm === 0 ? null : loadOhm / aheadOhm,
  };
}

export const speakerCableCalculation = calculation({
  name: 'speakerCable',
  about: 'level and damping that a speaker lead costs',
  caution: 'Leads of bridged or full-bridge outputs never touch body metal or each other.',
  inputs: {
    lengthM: number('m', { min: 0 }),
    loadOhm: number('ohm', { above: 0 }),
    ampDamping: optional(number('', { above: 0 }), 'infinite'),
    ...conductorInputs,
  },
  eitherOf: [conductorSize],
  answer({ lengthM, loadOhm, ampDamping = Number.POSITIVE_INFINITY, tempC, ...size }) {
    const conductor = conductorFrom(size, tempC);
    return conductor.ok ? success(speakerCable(conductor.value, { lengthM, loadOhm, ampDamping })) : conductor;
  },
});
