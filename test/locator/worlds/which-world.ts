// Says by the definition of a world (src/locator/worlds/probable-world.ts) which one an assignment of all modes belongs to.
import type { OracleRequest } from '../oracle/request.js';
import { downThrough, upThrough } from '../oracle/span-kinds.js';
import { bit, conditionOf } from '../oracle/tables.js';
import { ALL, type Assigned, type Drawn, shortOf, spokenOf, type Travelled } from './travel.js';

const COMPONENTS = ['junction-out', 'cable', 'junction-in', 'station'];
const STATION = 3;
const SHORTABLE = ['supply', 'speech', 'select'];

interface Spot {
  n: number;
  k: number;
}

/** What is settled for one trunk and one mode of the head-end. */
export class WhichWorld {
  private readonly said: string[][];
  private readonly words: string[];
  private readonly spare: number;

  constructor(
    request: OracleRequest,
    private readonly trunk: Drawn,
    private readonly headEnd: string,
  ) {
    this.said = trunk.nodes.map((node) =>
      (request.observations ?? [])
        .filter((o) => o.trunk === trunk.id && o.node === node.id)
        .map((o) => o.function),
    );
    // What every function with evidence would be, as one word: feeds with one word are alike.
    this.words = Array.from({ length: 32 }, (_, feed) =>
      spokenOf(request)
        .map((name) => conditionOf(name, headEnd, 'ok', feed))
        .join(),
    );
    this.spare = SHORTABLE.map(bit)
      .filter((core) => this.areAlike(ALL, ALL & ~core))
      .reduce((set, core) => set | core, 0);
  }

  /** The named faults; null: it belongs to no world. */
  faultsOf(x: Assigned, travelled: Travelled): string[] | null {
    if (!this.isAnyAlive(this.said.flat(), ALL)) return [];
    const { nodes, parent, order } = this.trunk;
    const { tops, seen, start, feeds } = travelled;
    const shorts = this.shortsSeen(x);
    const named = this.portFaults(x, ALL & ~seen);
    const hidden: number[] = [];
    const isSummed = nodes.map(() => false);
    for (const n of order) {
      const p = parent[n]!;
      const feed = p < 0 ? start : feeds[p]!;
      const hides = p < 0 ? this.spare : hidden[p]!;
      const isInside = p >= 0 && isSummed[p]!;
      const isBeyond = !this.isAnyAlive(this.saidUnder(n), feed);
      if (isInside || (isBeyond && !shorts.some((short) => this.isUnder(short.n, n)))) {
        if (!isInside && tops[n]! & ~hides) return null;
        isSummed[n] = true;
        continue;
      }
      const span = this.spanFaults(x, n, { feed, hides, isBeyond, shorts });
      if (!span) return null;
      hidden[n] = span.hides;
      const station = this.isStationNamed(x.stations[n]!, n, feeds[n]!, span.hides, shorts);
      if (station === null) return null;
      named.push(...span.named);
      if (station) named.push(this.nameOf(n, STATION, x.stations[n]!));
    }
    return named;
  }

  private portFaults({ port }: Assigned, feed: number): string[] {
    return port !== 'ok' && !this.areAlike(feed, feed & ~bit('supply')) ? ['port'] : [];
  }

  private spanFaults(
    x: Assigned,
    n: number,
    given: { feed: number; hides: number; isBeyond: boolean; shorts: Spot[] },
  ): { named: string[]; hides: number } | null {
    const named: string[] = [];
    let { feed, hides } = given;
    for (const [k, mode] of x.spans[n]!.entries()) {
      if (mode === 'ok') continue;
      const core = shortOf(mode);
      const after = downThrough(mode, feed);
      if (core ? core & hides : this.areAlike(feed, after)) {
        // Between a short that is named and the port everything else carries.
        if (this.isShortBeyond(given.shorts, n, k)) return null;
      } else {
        const isNamed = core
          ? given.shorts.some((short) => short.n === n && short.k === k)
          : !given.isBeyond;
        if (!isNamed) return null;
        named.push(this.nameOf(n, k, mode));
        if (mode === 'parted' || mode === 'open-return') hides = ALL;
        if (mode.startsWith('open-')) hides |= bit(mode.slice(5));
      }
      feed = after;
    }
    // The search names one fault in a span.
    return named.length > 1 ? null : { named, hides };
  }

  private isStationNamed(mode: string, n: number, feed: number, hides: number, shorts: Spot[]) {
    if (mode === 'short-supply') {
      if (shorts.some((short) => short.n === n && short.k === STATION)) return true;
      return bit('supply') & hides ? false : null;
    }
    return this.said[n]!.some(
      (name) =>
        conditionOf(name, this.headEnd, mode, feed) !== conditionOf(name, this.headEnd, 'ok', feed),
    );
  }

  /** Shorts that matter and are seen from the port. */
  private shortsSeen(x: Assigned): Spot[] {
    return this.trunk.nodes.flatMap((_, n) =>
      [...x.spans[n]!, x.stations[n]!].flatMap((mode, k) => {
        const core = shortOf(mode) & ~this.spare;
        return core && this.isSeen(x, n, k - 1, core) ? [{ n, k }] : [];
      }),
    );
  }

  private isSeen(x: Assigned, n: number, above: number, core: number): boolean {
    for (let at = n, from = above; at >= 0; at = this.trunk.parent[at]!, from = 2)
      for (let k = from; k >= 0; k--) if (!(upThrough(x.spans[at]![k]!, core) & core)) return false;
    return true;
  }

  private isShortBeyond(shorts: Spot[], n: number, k: number): boolean {
    return shorts.some((short) => (short.n === n ? short.k > k : this.isUnder(short.n, n)));
  }

  private isUnder(n: number, top: number): boolean {
    return n === top || (n >= 0 && this.isUnder(this.trunk.parent[n]!, top));
  }

  private saidUnder(top: number): string[] {
    return this.said.flatMap((names, n) => (this.isUnder(n, top) ? names : []));
  }

  private isAnyAlive(names: string[], feed: number): boolean {
    return names.some((name) => conditionOf(name, this.headEnd, 'ok', feed) !== 'dead');
  }

  private areAlike(a: number, b: number): boolean {
    return this.words[a] === this.words[b];
  }

  private nameOf(n: number, k: number, mode: string): string {
    return `${this.trunk.id} ${this.trunk.nodes[n]!.id} ${COMPONENTS[k]} ${mode}`;
  }
}
