import type { HeadEndMode, HeadEndModeName } from './modes.js';
import type { RateTables } from './rates.js';

/**
 * How many faults of each mode are to be expected in one component since that mode was last proven absent there:
 * rate × years (cable: × metres). What section 2 of the fault model calls λt, given mode by mode where a site's own
 * record knows more than one rate table and one exposure can say:
 *
 *     P(ok) = exp(-Λ)    P(m) = (1 - exp(-Λ)) h(m) / Λ    with Λ the sum of all h(m)
 */
export type ModeExpectation<Group extends keyof RateTables> = RateTables[Group];

/** A mode of a group may be told by group, as answers name it; else its kind stands for all groups. */
export type HeadEndExpectation = Readonly<Partial<Record<HeadEndMode | HeadEndModeName, number>>>;

export interface NodeExpectation {
  id: string;
  junctionOut: ModeExpectation<'junction'>;
  cable: ModeExpectation<'cablePerMetre'>;
  junctionIn: ModeExpectation<'junction'>;
  /** Of no use at a junction box. */
  station: ModeExpectation<'station'>;
}

export interface TrunkExpectation {
  id: string;
  port: ModeExpectation<'port'>;
  nodes: readonly NodeExpectation[];
}

/** A site's own prior, beside a request; what it leaves out goes by the request's rates and exposure. */
export interface ExpectedFaults {
  headEnd: HeadEndExpectation;
  trunks: readonly TrunkExpectation[];
}
