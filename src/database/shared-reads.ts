/** Reads of one thing: the one under way, and the one that answers whoever asks meanwhile. */
interface Line {
  underWay: Promise<unknown>;
  next?: Promise<unknown>;
}

/**
 * Of those who ask for the same at once, most read together. What is under way may have begun before somebody's change was committed,
 * so who comes meanwhile is answered by the next, which begins after they asked. There are never more lines than askers.
 */
export class SharedReads {
  private readonly lines = new Map<string, Line>();

  /** What it gives is for all who asked: nobody changes it. What fails, fails for them all. */
  read<T>(key: string, read: () => Promise<T>): Promise<T> {
    const line = this.lines.get(key);
    if (line === undefined) return this.begin(key, read);
    line.next ??= line.underWay.then(ignore, ignore).then(() => this.begin(key, read));
    return line.next as Promise<T>;
  }

  private begin<T>(key: string, read: () => Promise<T>): Promise<T> {
    const underWay = read();
    const line: Line = { underWay };
    this.lines.set(key, line);
    const end = () => {
      if (line.next === undefined) this.lines.delete(key);
    };
    underWay.then(end, end);
    return underWay;
  }
}

function ignore(): void {
  // Whoever asked is told.
}
