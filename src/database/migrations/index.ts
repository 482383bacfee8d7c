import { FirmsAndPeople1764000000001 } from './0001-firms-and-people.js';

/** Every migration, oldest first. Listed, not found by pattern: what runs is what is written here. */
export const migrations = [FirmsAndPeople1764000000001];
