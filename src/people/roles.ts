/** The kinds of work inside a firm. */
export const WORKS = ['owner', 'dispatcher', 'contract-manager', 'technician'] as const;

export type Work = (typeof WORKS)[number];

/** What somebody may be: a firm's worker, one of a client's people, or whoever holds a site's pass. */
export const ROLES = [...WORKS, 'client', 'pass'] as const;

export type Role = (typeof ROLES)[number];

/** What a person of the installation can be; a pass belongs to nobody. */
export type PersonRole = Exclude<Role, 'pass'>;

export const PERSON_ROLES = ROLES.filter((role) => role !== 'pass');
