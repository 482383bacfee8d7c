/** Of so many tickets it is remembered. */
const MOST_TICKETS = 1000;

interface NotWanted {
  /** Its fingerprint; null: none is known to be over. */
  over: string | null;
  /** What is at hand: its fingerprint, and the key that it is held by. */
  atHand: { fingerprint: string; key: string } | null;
}

/** By ticket the kept answers that are not to be read, which may be a megabyte: no longer the answer, or at hand. */
export class AnswersNotWanted {
  /** Oldest first. */
  private readonly byTicket = new Map<string, NotWanted>();

  constructor(private readonly isAtHand: (key: string) => boolean) {}

  /** Their fingerprints. */
  of(ticketId: string): string[] {
    const { over = null, atHand = null } = this.byTicket.get(ticketId) ?? {};
    return [
      ...(over === null ? [] : [over]),
      ...(atHand !== null && this.isAtHand(atHand.key) ? [atHand.fingerprint] : []),
    ];
  }

  add(ticketId: string, known: Partial<NotWanted>): void {
    const before = this.byTicket.get(ticketId) ?? { over: null, atHand: null };
    this.byTicket.delete(ticketId);
    this.byTicket.set(ticketId, { ...before, ...known });
    if (this.byTicket.size <= MOST_TICKETS) return;
    for (const oldest of this.byTicket.keys()) return void this.byTicket.delete(oldest);
  }
}
