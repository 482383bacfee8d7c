// What is so in EVERY world of one trunk, whatever the plan, straight from sections 2 to 5 of the fault model. It shares no code and
// no table with the locator: a plan is read by its names.
import type { Plan } from '#app/plan/plan.js';

export type Numbers = Record<string, number>;
type Rates = Partial<
  Record<'headEnd' | 'port' | 'station' | 'junction' | 'cablePerMetre', Numbers>
>;

export interface PlanRequest {
  nodes: {
    id: string;
    kind: 'station' | 'junction-box';
    fedFrom?: string | null;
    cableMetres: number;
    groups?: string[];
  }[];
  exposureDays: number;
  begunBy?: 'round';
  rates?: Rates;
  observations: {
    node: string;
    function: string;
    outcome: string;
    informant?: { kind: 'office' | 'technician'; id?: string };
  }[];
  looks?: {
    place: { kind: string; from?: string | null; to?: string; node?: string };
    part: string;
    group?: string;
    seen: string;
    informant?: { kind: 'office' | 'technician' };
  }[];
  unmentioned?: { reportRate: number; functions: string[] };
}

const PARTS = ['junction-out', 'cable', 'junction-in'];
export const CONDITIONS = ['good', 'weak', 'dead'] as const;
type Condition = (typeof CONDITIONS)[number];

/** A component by name, with P(mode) and what was seen of it in the chances. */
interface Component {
  name: string;
  part: string;
  node: number;
  modes: string[];
  chances: number[];
}

function component(
  plan: Plan,
  request: PlanRequest,
  of: Omit<Component, 'modes' | 'chances'>,
  rates: Numbers,
  isLookedAt: (look: NonNullable<PlanRequest['looks']>[number]) => boolean,
): Component {
  const years = request.exposureDays / 365.25;
  const total = Object.values(rates).reduce((sum, rate) => sum + rate * years, 0);
  const modes = ['ok', ...Object.keys(rates)];
  const chances = modes.map((mode) => {
    if (mode === 'ok') return Math.exp(-total);
    return total > 0 ? ((1 - Math.exp(-total)) * rates[mode]! * years) / total : 0;
  });
  for (const look of (request.looks ?? []).filter(isLookedAt)) {
    const kind = look.informant?.kind ?? 'technician';
    const part = look.group === undefined ? look.part : `${look.part}:${look.group}`;
    modes.forEach((mode, m) => {
      const isCovered =
        mode !== 'ok' &&
        (PARTS.includes(part) ||
          (part === 'unit' ? !plan.station[mode]!.isSetting : part === mode));
      const { missed, false: alarm } = plan.looks[kind];
      const least = [missed];
      if (part === 'cable' || (part === 'unit' && kind === 'office')) least.push(0.5);
      if (PARTS.includes(part) && mode !== 'ok' && kind === 'technician')
        if ('weakens' in plan.span[mode]!) least.push(0.3);
      const faulty = isCovered ? 1 - Math.max(...least) : alarm;
      chances[m]! *= look.seen === 'faulty' ? faulty : 1 - faulty;
    });
  }
  return { ...of, modes, chances };
}

export function componentsOf(plan: Plan, request: PlanRequest): Component[] {
  const rates = { ...plan.rates, ...request.rates };
  const groups = [...new Set(request.nodes.flatMap(({ groups: own = [] }) => own))];
  const headEnd = Object.entries(rates.headEnd).flatMap(([mode, rate]): [string, number][] =>
    mode in plan.headEnd ? [[mode, rate]] : groups.map((group) => [`${mode}:${group}`, rate]),
  );
  const make = (of: Omit<Component, 'modes' | 'chances'>, table: Numbers, kind: string) =>
    component(plan, request, of, table, ({ place, part }) => {
      const id = request.nodes[of.node]?.id;
      if (place.kind !== kind) return false;
      return kind === 'span'
        ? place.to === id && part === of.part
        : kind !== 'station' || place.node === id;
    });
  const scaled = (table: Numbers, by: number) =>
    Object.fromEntries(Object.entries(table).map(([mode, rate]) => [mode, rate * by]));
  return [
    make({ name: 'head-end', part: 'head-end', node: -1 }, Object.fromEntries(headEnd), 'head-end'),
    make({ name: 'port A', part: 'port', node: -1 }, rates.port, 'port'),
    ...request.nodes.flatMap(({ id, kind, cableMetres }, node) => [
      ...PARTS.map((part) => {
        const table = part === 'cable' ? scaled(rates.cablePerMetre, cableMetres) : rates.junction;
        return make({ name: `span A/${id}`, part, node }, table, 'span');
      }),
      ...(kind === 'station'
        ? [make({ name: `station A/${id}`, part: 'station', node }, rates.station, 'station')]
        : []),
    ]),
  ];
}

/** What is true in one world; arrays are used again for the next. */
export class World {
  readonly mode: string[];
  /** By node: cores whose short is seen from it; cores that arrive; whether they arrive weakly. */
  readonly view: Set<string>[];
  readonly feed: Set<string>[];
  readonly weak: boolean[];
  seen = new Set<string>();
  private readonly feeder: number[];

  constructor(
    private readonly plan: Plan,
    private readonly request: PlanRequest,
    private readonly components: readonly Component[],
  ) {
    this.mode = components.map(() => 'ok');
    this.view = request.nodes.map(() => new Set<string>());
    this.feed = request.nodes.map(() => new Set<string>());
    this.weak = request.nodes.map(() => false);
    this.feeder = request.nodes.map(({ fedFrom }, n) =>
      fedFrom === undefined ? n - 1 : request.nodes.findIndex(({ id }) => id === fedFrom),
    );
  }

  /** Of a node, its components from the top down, by place in the list. */
  private spanAt(n: number): number[] {
    return [...this.components.keys()].filter(
      (c) => this.components[c]!.node === n && this.components[c]!.part !== 'station',
    );
  }

  private readonly spans = new Map<number, number[]>();
  private span(n: number): number[] {
    if (!this.spans.has(n)) this.spans.set(n, this.spanAt(n));
    return this.spans.get(n)!;
  }

  private readonly stationsAt = new Map<number, number>();
  station(n: number): string {
    if (!this.stationsAt.has(n))
      this.stationsAt.set(
        n,
        this.components.findIndex(({ node, part }) => node === n && part === 'station'),
      );
    return this.mode[this.stationsAt.get(n)!] ?? 'ok';
  }

  private through(mode: string, view: Set<string>): Set<string> {
    if (mode === 'ok') return view;
    const fault = this.plan.span[mode]!;
    if ('parts' in fault) return new Set();
    if ('shorts' in fault) return new Set([...view, fault.shorts]);
    if (!('opens' in fault)) return view;
    return fault.opens === this.plan.return
      ? new Set()
      : new Set([...view].filter((core) => core !== fault.opens));
  }

  settle(): void {
    this.settleViews();
    this.settleFeeds();
  }

  private settleViews(): void {
    const { plan, mode } = this;
    const count = this.request.nodes.length;
    this.seen = new Set();
    for (const view of this.view) view.clear();
    for (let n = count - 1; n >= 0; n--) {
      if (plan.station[this.station(n)]?.shortsSupply) this.view[n]!.add(plan.supply);
      let view = this.view[n]!;
      for (const c of this.span(n).toReversed()) view = this.through(mode[c]!, view);
      const above = this.feeder[n]! < 0 ? this.seen : this.view[this.feeder[n]!]!;
      for (const core of view) above.add(core);
    }
  }

  private settleFeeds(): void {
    const { plan, mode } = this;
    const count = this.request.nodes.length;
    const start = new Set(plan.cores.filter((core) => !this.seen.has(core)));
    if (mode[1] !== 'ok' || plan.headEnd[mode[0]!]?.takesSupply) start.delete(plan.supply);
    for (let n = 0; n < count; n++) {
      const above = this.feeder[n]!;
      const feed = new Set(above < 0 ? start : this.feed[above]!);
      let weak = above < 0 ? false : this.weak[above]!;
      for (const c of this.span(n)) {
        const fault = plan.span[mode[c]!];
        if (!fault) continue;
        if ('parts' in fault) feed.clear();
        if ('opens' in fault) feed.delete(fault.opens);
        if ('weakens' in fault) weak = true;
      }
      this.feed[n] = feed;
      this.weak[n] = weak;
    }
  }

  headEndDisables(n: number, name: string): boolean {
    const [kind = '', group] = this.mode[0]!.split(':');
    const fault = group === undefined ? this.plan.headEnd[kind] : this.plan.headEndOfGroup[kind];
    if (!fault?.disables.includes(name)) return false;
    return group === undefined || (this.request.nodes[n]!.groups ?? []).includes(group);
  }

  condition(n: number, name: string): Condition {
    const arrives = this.plan.functions[name]!.every((core) => this.feed[n]!.has(core));
    const own = this.plan.station[this.station(n)]?.disables.includes(name) ?? false;
    if (!arrives || own || this.headEndDisables(n, name)) return 'dead';
    return this.weak[n] ? 'weak' : 'good';
  }

  private way(n: number): number[] {
    return n < 0 ? [] : [...this.way(this.feeder[n]!), ...this.span(n)];
  }

  /** Section 5, "Causes". */
  cause(n: number, name: string): string {
    const condition = this.condition(n, name);
    if (condition === 'good') return 'nothing';
    if (this.headEndDisables(n, name)) return `head-end ${this.mode[0]}`;
    if (this.mode[1] !== 'ok') return 'port A';
    const needed = this.plan.functions[name]!;
    if (needed.some((core) => this.seen.has(core))) return 'short A';
    const of = (c: number) => `${this.components[c]!.name} ${this.components[c]!.part}`;
    const way = this.way(n);
    const taker = way.find((c) => {
      const fault = this.plan.span[this.mode[c]!];
      return fault && ('parts' in fault || ('opens' in fault && needed.includes(fault.opens)));
    });
    if (taker !== undefined) return of(taker);
    if (condition === 'dead') return `station A/${this.request.nodes[n]!.id} ${this.station(n)}`;
    return of(way.find((c) => 'weakens' in (this.plan.span[this.mode[c]!] ?? {}))!);
  }

  /** Places that hold a short of one of these cores that is seen from the port. */
  shortsSeen(cores: readonly string[]): Set<string> {
    const found = new Set<string>();
    // Only opens hide a short; another short above it does not, nor does it stand for it.
    const isSeen = (core: string, above: number[]) =>
      above.every((c) => {
        const fault = this.plan.span[this.mode[c]!];
        return (
          !fault || 'shorts' in fault || this.through(this.mode[c]!, new Set([core])).has(core)
        );
      });
    this.request.nodes.forEach(({ id }, n) => {
      const way = this.way(n);
      if (shortsSupply(this.plan, this.station(n)) && cores.includes(this.plan.supply))
        if (isSeen(this.plan.supply, way)) found.add(`station A/${id}`);
      this.span(n).forEach((c) => {
        const fault = this.plan.span[this.mode[c]!];
        if (fault && 'shorts' in fault && cores.includes(fault.shorts))
          if (isSeen(fault.shorts, way.slice(0, way.indexOf(c)))) found.add(`span A/${id}`);
      });
    });
    return found;
  }

  /** Head-end, port, and what is seen from each of these nodes and arrives there. */
  explanation(informative: readonly number[]): string {
    const at = informative.map((n) => {
      const cores = (set: Set<string>) => [...set].sort().join('+');
      const weak = this.weak[n] ? '~' : '';
      return `${this.request.nodes[n]!.id}:${cores(this.feed[n]!)}${weak}/${cores(this.view[n]!)}`;
    });
    return [this.mode[0], this.mode[1], ...at].join(' ');
  }
}

const shortsSupply = (plan: Plan, mode: string) => plan.station[mode]?.shortsSupply === true;
