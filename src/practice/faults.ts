// All faults the bay can plant, by the kind of thing that is wrong. Each is a pure function from world to world and truth.
export * from './faults/car-faults.ts';
export * from './faults/catalogue.ts';
export * from './faults/fault.ts';
export * from './faults/file-faults.ts';
export * from './faults/noise-faults.ts';
export * from './faults/recorder-faults.ts';
