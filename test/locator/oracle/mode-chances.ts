// Section 2 and the looks of section 4: the chance of each mode of a component, times what was seen of it.
import type { OracleLook, OracleRequest, Rates } from './request.js';
import { GROUP_STOPS } from './tables.js';

export function priors(rates: Rates, scale: number, years: number): Rates {
  const total = Object.values(rates).reduce((sum, rate) => sum + rate * scale, 0);
  const chances: Rates = { ok: Math.exp(-total * years) };
  for (const [mode, rate] of Object.entries(rates))
    chances[mode] = total > 0 ? (1 - Math.exp(-total * years)) * ((rate * scale) / total) : 0;
  return chances;
}

/** Each group that a node names has modes of its own. */
export function headEndRates({ trunks }: Pick<OracleRequest, 'trunks'>, rates: Rates): Rates {
  const groups = new Set(trunks.flatMap(({ nodes }) => nodes.flatMap((node) => node.groups ?? [])));
  return Object.fromEntries(
    Object.entries(rates).flatMap(([mode, rate]): [string, number][] =>
      mode in GROUP_STOPS ? [...groups].map((group) => [`${mode}:${group}`, rate]) : [[mode, rate]],
    ),
  );
}

const NOT_OF_THE_UNIT = ['volume-down', 'bell-setting', 'announcement-setting', 'music-setting'];

function covers({ place, part, group }: OracleLook, mode: string): boolean {
  if (mode === 'ok') return false;
  if (place.kind === 'span') return true;
  if (place.kind === 'station' && part === 'unit') return !NOT_OF_THE_UNIT.includes(mode);
  return mode === (group === undefined ? part : `${part}:${group}`);
}

function seenGiven(look: OracleLook, mode: string): number {
  const who = look.informant?.kind ?? 'technician';
  const isSound = look.seen === 'sound';
  if (!covers(look, mode)) {
    const falsely = who === 'office' ? 0.01 : 0.002;
    return isSound ? 1 - falsely : falsely;
  }
  const missed = Math.max(
    who === 'office' ? 0.1 : 0.05,
    who === 'technician' && mode === 'resistive' ? 0.3 : 0,
    look.part === 'cable' ? 0.5 : 0,
    who === 'office' && look.part === 'unit' ? 0.5 : 0,
  );
  return isSound ? missed : 1 - missed;
}

/** P(mode and everything that was seen of this component), mode by mode; in place of P(mode). */
export function afterLooks(chances: Rates, looks: readonly OracleLook[]): Rates {
  return Object.fromEntries(
    Object.entries(chances).map(([mode, chance]) => [
      mode,
      looks.reduce((product, look) => product * seenGiven(look, mode), chance),
    ]),
  );
}

export const looksAt = (request: OracleRequest, isThere: (look: OracleLook) => boolean) =>
  (request.looks ?? []).filter(isThere);
