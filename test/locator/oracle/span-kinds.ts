// Section 3: what travels through one span, all modes of its three components.
import type { Rates } from './request.js';
import { ALL, bit, ORACLE_FUNCTIONS, neededBy, WEAK } from './tables.js';

/** What a component in a mode makes of the view below it. */
export function upThrough(mode: string, view: number): number {
  if (mode === 'parted' || mode === 'open-return') return 0;
  if (mode.startsWith('open-')) return view & ~bit(mode.slice(5));
  if (mode.startsWith('short-')) return view | bit(mode.slice(6));
  return view;
}

/** What it makes of the feed above it; a feed is a set of cores, plus WEAK. */
export function downThrough(mode: string, feed: number): number {
  if (mode === 'parted') return feed & WEAK;
  if (mode.startsWith('open-')) return feed & ~bit(mode.slice(5));
  return mode === 'resistive' ? feed | WEAK : feed;
}

export const COMPONENTS = ['junction-out', 'cable', 'junction-in'] as const;

export interface SpanKind {
  chance: number;
  /** The three modes, where readings tell them apart. */
  detail: string[];
  /** By the view below: bits supply, speech, select counted through 0..7. */
  up: number[];
  down: number[];
  /** Chances of each component's modes together with this kind; and of any fault. */
  modes: Record<string, Rates>;
  faulty: number;
  /** By function: the component that is the first to take a core it needs, or "" for none, together with this kind. */
  takes: Record<string, Rates>;
  /** The first resistive component. */
  weakens: Rates;
}

/** A view as its place in SpanKind.up. */
export const viewIndex = (view: number) => (view & 1) | ((view & 12) >> 1);

const add = (table: Rates, key: string, mass: number) => (table[key] = (table[key] ?? 0) + mass);

/**
 * Every assignment of a span's three components; those that do the same to every view and feed (and `inDetail` are of the
 * same modes, good joints and bad ones alike) are kept as one.
 */
export function spanKinds(
  junctionOut: Rates,
  cable: Rates,
  junctionIn: Rates,
  inDetail: boolean,
): SpanKind[] {
  const kinds = new Map<string, SpanKind>();
  for (const [out, pOut] of Object.entries(junctionOut))
    for (const [middle, pMiddle] of Object.entries(cable))
      for (const [inward, pIn] of Object.entries(junctionIn))
        addAssignment(kinds, [out, middle, inward], pOut * pMiddle * pIn, inDetail);
  return [...kinds.values()];
}

function addAssignment(
  kinds: Map<string, SpanKind>,
  modes: [string, string, string],
  chance: number,
  inDetail: boolean,
): void {
  if (chance === 0) return;
  const [out, middle, inward] = modes;
  const up = Array.from({ length: 8 }, (_, v) =>
    upThrough(out, upThrough(middle, upThrough(inward, (v & 1) | ((v & 6) << 1)))),
  );
  const down = Array.from({ length: 32 }, (_, feed) =>
    downThrough(inward, downThrough(middle, downThrough(out, feed))),
  );
  const carries = (mode: string) => mode === 'ok' || mode === 'resistive';
  const detail = inDetail ? modes.map((mode) => (carries(mode) ? '' : mode)) : [];
  const key = [...up, ...down, ...detail].join();
  const kind = kinds.get(key) ?? {
    chance: 0,
    detail,
    up,
    down,
    modes: { 'junction-out': {}, cable: {}, 'junction-in': {} },
    faulty: 0,
    takes: Object.fromEntries(ORACLE_FUNCTIONS.map((name) => [name, {}])),
    weakens: {},
  };
  kinds.set(key, kind);
  kind.chance += chance;
  modes.forEach((mode, part) => add(kind.modes[COMPONENTS[part]!], mode, chance));
  if (modes.some((mode) => mode !== 'ok')) kind.faulty += chance;
  const first = (isIt: (mode: string) => boolean) => {
    const part = modes.findIndex(isIt);
    return part < 0 ? '' : COMPONENTS[part]!;
  };
  for (const name of ORACLE_FUNCTIONS) {
    const taker = first((mode) => (neededBy(name) & ~downThrough(mode, ALL)) !== 0);
    add(kind.takes[name]!, taker, chance);
  }
  add(
    kind.weakens,
    first((mode) => mode === 'resistive'),
    chance,
  );
}
