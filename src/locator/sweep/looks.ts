import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import type { Place } from '../../drawing/drawn-node.js';
import type { ErrorRates, InformantKind } from '../../plan/error-rates.js';
import { missedChance, PASSING_MISSED } from '../../plan/look-errors.js';
import type { Plan } from '../../plan/plan.js';
import { modeChances } from '../../plan/mode-chances.js';
import type { RequestLook } from '../request/locate-request.js';

/**
 * P(what was seen of one component | its mode), over the largest of them: many looks at one part would leave the range of
 * doubles. `ok` first, then the modes asked for.
 */
export interface Seen {
  readonly factors: Float64Array;
}

const NOTHING_SEEN: readonly RequestLook[] = [];

function keyOf(place: Place, part: string): string {
  if (place.kind === 'span') return JSON.stringify(['span', place.trunk, place.to, part]);
  if (place.kind === 'station') return JSON.stringify(['station', place.trunk, place.node]);
  return JSON.stringify(place.kind === 'port' ? ['port', place.trunk] : ['head-end']);
}

function coveredBy(look: RequestLook): string {
  return 'group' in look && look.group !== undefined ? `${look.part}:${look.group}` : look.part;
}

/** Who looked, for what, and how it was found. */
interface Looked {
  readonly kind: InformantKind;
  readonly covered: string;
  readonly seen: RequestLook['seen'];
}

function lookedOf(look: RequestLook): Looked {
  const kind = look.informant?.kind ?? 'technician';
  return { kind, covered: coveredBy(look), seen: look.seen };
}

/** Chance of what one more look sees of a component, by its modes, `ok` first: as `Seen`, but not over the largest. */
export function lookFactors(
  plan: Plan,
  looked: Looked,
  modes: readonly string[],
  errors: ErrorRates,
): Float64Array {
  return Float64Array.from(['ok', ...modes], (mode) => likelihoodOf(plan, looked, mode, errors));
}

/** Chance of what was seen, given a mode of the component that was looked at. */
function likelihoodOf(
  plan: Plan,
  { kind, covered, seen }: Looked,
  mode: string,
  errors: ErrorRates,
): number {
  const missed = missedChance(plan, kind, covered, mode, errors[kind].missed);
  if (missed === null) {
    const wrong = plan.looks[kind].false;
    return seen === 'faulty' ? wrong : 1 - wrong;
  }
  return seen === 'faulty' ? 1 - missed : missed;
}

/** The looks of a request by component. */
export class Looks {
  private readonly at = new Map<string, RequestLook[]>();
  /** Of all components asked for so far: logarithm of what was taken out of their factors. */
  logLargest = 0;
  private readonly told = new Map<string, Seen>();

  constructor(
    private readonly plan: Plan,
    looks: readonly RequestLook[],
    private readonly errors: ErrorRates,
  ) {
    for (const look of looks) {
      const key = keyOf(look.place, look.part);
      const known = this.at.get(key);
      if (known) known.push(look);
      else this.at.set(key, [look]);
    }
    for (const own of this.at.values())
      own.sort((a, b) => compareIds(JSON.stringify(a), JSON.stringify(b)));
  }

  /** P(what was seen | a mode that comes and goes) over P(what was seen | ok): a look at it misses half. */
  passingFactor(place: Place, part: string, mode: string): number {
    const looks = this.at.get(keyOf(place, part)) ?? NOTHING_SEEN;
    return looks.reduce((factor, look) => {
      const { kind } = look.informant ?? { kind: 'technician' };
      const missed = missedChance(this.plan, kind, coveredBy(look), mode, this.errors[kind].missed);
      if (missed === null) return factor;
      const passes = Math.max(missed, PASSING_MISSED);
      const seen = look.seen === 'faulty' ? 1 - passes : passes;
      return (factor * seen) / likelihoodOf(this.plan, lookedOf(look), 'ok', this.errors);
    }, 1);
  }

  /** No mode of any component makes what was seen less likely than another by more than this, as a logarithm. */
  logSpreadOfAll(): number {
    let spread = 0;
    for (const looks of this.at.values())
      for (const { informant } of looks)
        spread -= ln(this.plan.looks[informant?.kind ?? 'technician'].false);
    return spread;
  }

  /** Null where nobody looked. */
  seen(place: Place, part: string, modes: readonly string[]): Seen | null {
    if (this.at.size === 0) return null;
    const key = keyOf(place, part);
    const looks = this.at.get(key) ?? NOTHING_SEEN;
    if (looks.length === 0) return null;
    const known = this.told.get(key);
    if (known) return known;
    const logs = ['ok', ...modes].map((mode) =>
      looks.reduce(
        (sum, look) => sum + ln(likelihoodOf(this.plan, lookedOf(look), mode, this.errors)),
        0,
      ),
    );
    const logLargest = Math.max(...logs);
    const seen = { factors: Float64Array.from(logs, (log) => exp(log - logLargest)) };
    this.told.set(key, seen);
    this.logLargest += logLargest;
    return seen;
  }
}

/** A table of rates or expectations, each times what was seen. */
export function seenWeights<Table extends Readonly<Partial<Record<string, number>>>>(
  table: Table,
  modes: readonly string[],
  { factors }: Seen,
): Table {
  const weighed = modes.flatMap((mode, m) => {
    const weight = table[mode];
    return weight === undefined ? [] : [[mode, weight * (factors[m + 1] ?? 0)]];
  });
  return Object.fromEntries(weighed) as Table;
}

/** Priors of the modes in the order given, each times P(what was seen | mode). */
export function seenChances(
  ratesPerYear: ArrayLike<number>,
  years: number,
  seen: Seen | null,
): { ok: number; modes: Float64Array } {
  const prior = modeChances(ratesPerYear, years);
  if (!seen) return prior;
  const { factors } = seen;
  return {
    ok: prior.ok * (factors[0] ?? 0),
    modes: prior.modes.map((chance, m) => chance * (factors[m + 1] ?? 0)),
  };
}
