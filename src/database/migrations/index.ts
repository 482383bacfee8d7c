import { FirmsAndPeople1764000000001 } from './0001-firms-and-people.js';
import { Sites1764000000002 } from './0002-sites.js';
import { Tickets1764000000003 } from './0003-tickets.js';
import { Visits1764000000004 } from './0004-visits.js';

/** Every migration, oldest first. Listed, not found by pattern: what runs is what is written here. */
export const migrations = [
  FirmsAndPeople1764000000001,
  Sites1764000000002,
  Tickets1764000000003,
  Visits1764000000004,
];
