// Fuses that can be bought: the standard ratings of each family, in ampere, rising.

/**
 * Sources: ISO 8820-3 (blades: type F small, C usual, E large), ISO 8820-5 (bolt-down strips with holes 30 and 51 mm apart),
 * IEC 60127 (6.3 x 32 mm tubes); `flat-link` is a bolt-down link of the audio trade and no standard type.
 */
export const fuseFamilies = {
  'blade-mini': [2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30],
  blade: [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40],
  'blade-large': [20, 30, 40, 50, 60, 70, 80, 100],
  'strip-30': [30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200],
  'strip-51': [80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500],
  'flat-link': [35, 40, 50, 60, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 500],
  'glass-6x32': [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30],
} as const;

export type FuseFamily = keyof typeof fuseFamilies;

export const fuseFamilyNames = Object.keys(fuseFamilies) as FuseFamily[];
