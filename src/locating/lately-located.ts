import type { LocatedInJson } from './locate-ticket.js';

/** All of them together, in characters; what is longer by itself is not held. */
const MOST_CHARACTERS = 8_000_000;

/** What was worked out last, by its question: the job that is to keep it need not work it out again. */
export class LatelyLocated {
  /** Oldest first. */
  private readonly located = new Map<string, LocatedInJson>();
  private characters = 0;

  get(key: string): LocatedInJson | undefined {
    return this.located.get(key);
  }

  add(key: string, one: LocatedInJson): void {
    if (lengthOf(one) > MOST_CHARACTERS || this.located.has(key)) return;
    this.located.set(key, one);
    this.characters += lengthOf(one);
    for (const [oldest, old] of this.located) {
      if (this.characters <= MOST_CHARACTERS) return;
      this.located.delete(oldest);
      this.characters -= lengthOf(old);
    }
  }
}

function lengthOf({ answer, places, officeChecks, predicted }: LocatedInJson): number {
  return answer.length + places.length + officeChecks.length + predicted.length;
}
