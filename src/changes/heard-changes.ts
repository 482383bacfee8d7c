/** That something changed, and nothing of what: who may see it reads it. */
export interface Change {
  firmId: string;
  kind: 'ticket' | 'location' | 'visit' | 'site';
  id: string;
}

export interface NumberedChange extends Change {
  /** Names the process that heard it and its place there: another process knows nothing of it. */
  eventId: string;
}

/** The last changes that a process heard of, so that whoever was away for a moment misses none. */
export class HeardChanges {
  private readonly ring: NumberedChange[] = [];
  private count = 0;

  constructor(
    private readonly begunAs: string,
    private readonly most: number,
  ) {}

  hear(change: Change): NumberedChange {
    const numbered = { ...change, eventId: `${this.begunAs}-${++this.count}` };
    this.ring.push(numbered);
    if (this.ring.length > this.most) this.ring.shift();
    return numbered;
  }

  /** By which to go on from here. */
  get last(): string {
    return `${this.begunAs}-${this.count}`;
  }

  /** What a firm's listener missed since; null where that is not known any more. */
  since(eventId: string, firmId: string): NumberedChange[] | null {
    const [, begunAs, at] = /^([\w-]+)-(\d{1,15})$/.exec(eventId) ?? [];
    const place = Number(at);
    const first = this.count - this.ring.length;
    if (begunAs !== this.begunAs || place < first || place > this.count) return null;
    return this.ring.slice(place - first).filter((one) => one.firmId === firmId);
  }
}
