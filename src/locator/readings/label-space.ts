import { InvalidLocateRequest } from '../request/errors.js';
import { MAX_LABELS } from '../request/limits.js';
import { type Label, keyOf, type LabelOutcome } from './label.js';

/** The labels that can occur at a point, numbered. */
export class LabelSpace {
  readonly labels: Label[] = [];
  private readonly numbers = new Map<string, number>();

  /** @throws InvalidLocateRequest when there are more than the stated limit. */
  number(label: Label): number {
    const key = keyOf(label);
    const known = this.numbers.get(key);
    if (known !== undefined) return known;
    if (this.labels.length >= MAX_LABELS) throw tooManyReadings();
    this.numbers.set(key, this.labels.length);
    return this.labels.push(label) - 1;
  }

  /** Whether it has the same labels with the same numbers. */
  isLike({ labels }: LabelSpace): boolean {
    return (
      labels.length === this.labels.length &&
      labels.every((label, l) => this.numbers.get(keyOf(label)) === l)
    );
  }
}

export function tooManyReadings(): InvalidLocateRequest {
  const reason =
    'too many continuity and loop readings overlap at one place, or too many branches lie at the distance of a short: ' +
    'leave out those that say least';
  return new InvalidLocateRequest([{ pointer: '/readings', reason }]);
}

/** A linear map between the masses of two label spaces, as its entries. */
export interface Moves {
  readonly from: Uint16Array;
  readonly to: Uint16Array;
  readonly weight: Float64Array;
}

/** The map by which each label of `from` (the first `count` of them) has these outcomes in `to`. */
export function movesBetween(
  from: LabelSpace,
  count: number,
  to: LabelSpace,
  outcomesOf: (label: Label) => readonly LabelOutcome[],
): Moves {
  const entries = { from: [] as number[], to: [] as number[], weight: [] as number[] };
  for (let i = 0; i < count; i++)
    for (const { label, weight } of outcomesOf(from.labels[i] ?? [])) {
      entries.from.push(i);
      entries.to.push(to.number(label));
      entries.weight.push(weight);
    }
  return {
    from: Uint16Array.from(entries.from),
    to: Uint16Array.from(entries.to),
    weight: Float64Array.from(entries.weight),
  };
}

const STAYING = new Map<number, Moves>();

/** Of so many labels, each stays what it is. */
export function movesThatStay(count: number): Moves {
  const known = STAYING.get(count);
  if (known) return known;
  const each = Uint16Array.from({ length: count }, (_, label) => label);
  const moves = { from: each, to: each, weight: new Float64Array(count).fill(1) };
  STAYING.set(count, moves);
  return moves;
}
