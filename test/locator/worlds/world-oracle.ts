// The slow oracle of worlds: visits every assignment of component modes, says by the definition which world it belongs to,
// and adds up. It shares no code and no table with the locator.
import { evidenceAt, settings } from '../oracle/evidence.js';
import { priors } from '../oracle/mode-chances.js';
import type { OracleRequest } from '../oracle/request.js';
import { headEndStops, ORACLE_RATES } from '../oracle/tables.js';
import { type Assigned, type Drawn, drawn, spokenOf, travel } from './travel.js';
import { WhichWorld } from './which-world.js';

function* assignments(
  request: OracleRequest,
  trunk: Drawn,
): Generator<{ x: Assigned; prior: number }> {
  const rates = { ...ORACLE_RATES, ...request.rates };
  const years = request.exposureDays / 365.25;
  const junction = priors(rates.junction, 1, years);
  const lists: [string, number][][] = [Object.entries(priors(rates.port, 1, years))];
  for (const node of trunk.nodes) {
    lists.push(Object.entries(junction));
    lists.push(Object.entries(priors(rates.cablePerMetre, node.cableMetres, years)));
    lists.push(Object.entries(junction));
    lists.push(
      node.kind === 'station' ? Object.entries(priors(rates.station, 1, years)) : [['ok', 1]],
    );
  }
  const at = lists.map(() => 0);
  for (;;) {
    const modes = at.map((m, i) => lists[i]![m]![0]);
    const prior = at.reduce((product, m, i) => product * lists[i]![m]![1], 1);
    const spans = trunk.nodes.map((_, n) => modes.slice(1 + 4 * n, 4 + 4 * n));
    const stations = trunk.nodes.map((_, n) => modes[4 + 4 * n]!);
    yield { x: { port: modes[0]!, spans, stations }, prior };
    let i = 0;
    while (i < at.length && ++at[i]! === lists[i]!.length) at[i++] = 0;
    if (i === at.length) return;
  }
}

/** P(world, evidence) of every world, by its faults' names joined; '' names none. One trunk. */
export function oracleWorlds(request: OracleRequest): {
  worlds: Map<string, number>;
  evidence: number;
} {
  const trunk = drawn(request.trunks[0]!);
  const worlds = new Map<string, number>();
  let evidence = 0;
  const stops = (headEnd: string) => spokenOf(request).some((name) => headEndStops(headEnd, name));
  const all = settings(request);
  const headEnds = [...new Set(all.map(({ headEnd }) => headEnd))];
  const memo = new Map<string, number>();
  const which = headEnds.map((headEnd) => new WhichWorld(request, trunk, headEnd));
  for (const { x, prior } of assignments(request, trunk)) {
    const travelled = travel(trunk, x);
    const { feeds } = travelled;
    for (const [h, headEnd] of headEnds.entries()) {
      let mass = 0;
      for (const [s, setting] of all.entries()) {
        if (setting.headEnd !== headEnd) continue;
        let likelihood = setting.prior;
        trunk.nodes.forEach((node, n) => {
          const key = `${s} ${n} ${x.stations[n]} ${feeds[n]}`;
          let factor = memo.get(key);
          if (factor === undefined) {
            const told = evidenceAt(request, { trunk: trunk.id, node, setting });
            factor = told?.(x.stations[n]!, feeds[n]!) ?? 1;
            memo.set(key, factor);
          }
          likelihood *= factor;
        });
        mass += likelihood;
      }
      mass *= prior;
      evidence += mass;
      const named = which[h]!.faultsOf(x, travelled);
      if (!named) continue;
      const key = [...(stops(headEnd) ? [`head-end ${headEnd}`] : []), ...named].sort().join('; ');
      worlds.set(key, (worlds.get(key) ?? 0) + mass);
    }
  }
  return { worlds, evidence };
}
