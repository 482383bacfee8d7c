// Section 3 of the fault model in the fewest values that its conditions can tell apart.

/** Views: cores whose short to return shows, as the sum of 1 supply, 2 speech, 4 select. */
export const VIEWS: readonly string[] = ['0', '1', '2', '3', '4', '5', '6', '7'];

const SHORTS: Readonly<Record<string, number>> = { supply: 1, speech: 2, select: 4 };

/** The view above a component, given its mode and the view below. */
export function viewAbove(mode: string, below: string): string {
  if (mode === 'parted' || mode === 'open-return') return '0';
  const [kind, core = ''] = mode.split('-');
  const view = Number(below);
  if (kind === 'open') return String(view & ~(SHORTS[core] ?? 0));
  return String(kind === 'short' ? view | (SHORTS[core] ?? 0) : view);
}

/** How far a function reaches into the list supply and return (1), speech (2), select (3). */
export const NEEDED_REACH: Readonly<Record<string, number>> = {
  lamp: 1,
  announcement: 2,
  bell: 2,
  music: 2,
  'room-call': 3,
  talkback: 3,
};

/**
 * Feeds: how far a function may reach for its cores all to arrive, and whether the supply is weak. Exact, because no
 * function needs speech without the supply pair, or select without speech; and a dead function is never also weak.
 */
export const FEEDS: readonly string[] = ['0', '1', '1 weak', '2', '2 weak', '3', '3 weak'];

const feedOf = (reach: number, isWeak: boolean) =>
  reach > 0 && isWeak ? `${reach} weak` : String(reach);

const LEAVES: Readonly<Record<string, number>> = {
  parted: 0,
  'open-supply': 0,
  'open-return': 0,
  'open-speech': 1,
  'open-select': 2,
};

/** The feed below a component, given its mode and the feed above. */
export function feedBelow(mode: string, above: string): string {
  const reach = Math.min(Number(above[0]), LEAVES[mode] ?? 3);
  return feedOf(reach, above.endsWith('weak') || mode === 'resistive');
}

/** The feed at the port: without the cores whose short it sees, and without supply if it has no output. */
export function feedWithout(port: string, seen: string): string {
  const view = Number(seen);
  if (port === 'no-output' || view & 1) return '0';
  if (view & 2) return '1';
  return view & 4 ? '2' : '3';
}

export const conditionNames: readonly string[] = ['good', 'weak', 'dead'];
