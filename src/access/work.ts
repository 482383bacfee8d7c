/** The kinds of work inside a firm. */
export const WORKS = ['owner', 'dispatcher', 'contract-manager', 'technician'] as const;

export type Work = (typeof WORKS)[number];
