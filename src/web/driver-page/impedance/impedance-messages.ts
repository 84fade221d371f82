// What the page and its reader of impedance sweeps say to each other.
import type { Issue } from '../../../base/result.ts';
import type { ImpedanceReading } from '../../../drivers/impedance/impedance-reading.ts';

/** How the sweep was recorded. */
export interface Circuit {
  /** The known resistor, as a meter reads it. */
  seriesOhm: number;
  /** Leads and clips from the second input to the coil. */
  leadOhm: number;
  /** The driver's voltage comes first, that before the resistor second. */
  driverFirst: boolean;
}

export interface ImpedanceRequest {
  /** One recording of both voltages, or two, one after the other. */
  wavs: Blob[];
  circuit: Circuit;
}

export type ImpedanceReport =
  | { say: 'done'; reading: ImpedanceReading }
  | { say: 'refused'; issues: Issue[] }
  | { say: 'failed'; message: string };
