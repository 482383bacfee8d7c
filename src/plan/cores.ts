/** The cores of the default cable. Sets of cores are bit sets: `supply` 1, `speech` 2, `select` 4, `return` 8. */
export const CORES = ['supply', 'speech', 'select', 'return'] as const;

export type Core = (typeof CORES)[number];

/** A set of cores as bits, in the order of CORES. */
export type CoreSet = number;

export const SUPPLY: CoreSet = 1;
export const SPEECH: CoreSet = 2;
export const SELECT: CoreSet = 4;
export const RETURN: CoreSet = 8;
export const ALL_CORES: CoreSet = SUPPLY | SPEECH | SELECT | RETURN;
