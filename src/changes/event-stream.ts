import type { NumberedChange } from './heard-changes.js';
import type { Listener } from './change.service.js';

/** The part of an answer that events are written to. */
export interface EventSink {
  writableLength: number;
  write: (text: string) => unknown;
  end: () => unknown;
  destroy: () => unknown;
}

/** Whoever does not read is let go: they ask again by the last event that they heard. */
const MOST_WAITING_BYTES = 262_144;

/** Writes changes as server-sent events. */
export class EventStream implements Listener {
  constructor(
    readonly firmId: string,
    private readonly sink: EventSink,
  ) {}

  tell({ eventId, kind, id }: NumberedChange): void {
    this.write(`id: ${eventId}\nevent: change\ndata: ${JSON.stringify({ kind, id })}\n\n`);
  }

  tellGap(last: string): void {
    this.write(`id: ${last}\nevent: missed\ndata: {}\n\n`);
  }

  /** Keeps what is in between from thinking that nobody is there. */
  beat(): void {
    this.write(': \n\n');
  }

  end(): void {
    this.sink.end();
  }

  private write(text: string): void {
    if (this.sink.writableLength > MOST_WAITING_BYTES) this.sink.destroy();
    else this.sink.write(text);
  }
}
