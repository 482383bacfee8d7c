import type { SupplyTrunk } from '#app/locator/electrical/index.js';

/**
 * A trunk as an ngspice input file: one circuit node per drawn node, go and return folded into one
 * resistor, `I` for a constant current, `B` with I = P/V for a constant power. The operating point
 * is sought from the unloaded voltages, so that a constant power is found on its upper branch.
 */
export function netlist(title: string, trunk: SupplyTrunk): string {
  const lines = [`* ${title}`, `VSOURCE source 0 ${trunk.sourceVolts}`];
  lines.push(`RSOURCE source port ${leastOhms(trunk.sourceOhms)}`);
  trunk.nodes.forEach(({ parent, cableMetres, loopOhmsPerMetre, jointOhms, load }, i) => {
    const from = parent === null ? 'port' : `n${parent}`;
    const ohms = cableMetres * (loopOhmsPerMetre ?? trunk.loopOhmsPerMetre) + (jointOhms ?? 0);
    lines.push(`R${i} ${from} n${i} ${leastOhms(ohms)}`);
    if (load?.kind === 'amps') lines.push(`I${i} n${i} 0 ${load.amps}`);
    if (load?.kind === 'watts') lines.push(`B${i} n${i} 0 I=${load.watts}/V(n${i})`);
  });
  const guesses = trunk.nodes.map((_, i) => `V(n${i})=${trunk.sourceVolts}`).join(' ');
  lines.push(`.nodeset ${guesses}`, '.options reltol=1e-12 vntol=1e-12 abstol=1e-15 itl1=1000');
  const prints = trunk.nodes.map((_, i) => `print v(n${i})`);
  lines.push('.control', 'set numdgt=12', 'op', ...prints, 'quit', '.endc', '.end', '');
  return lines.join('\n');
}

/** ngspice takes no resistor of 0 ohm. */
function leastOhms(ohms: number): string {
  return Math.max(ohms, 1e-9).toPrecision(12);
}
