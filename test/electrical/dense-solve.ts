import type { SupplyTrunk } from '#app/locator/electrical/index.js';

/**
 * Slow oracle for the ladder: the full nodal conductance matrix, Newton's method on all node
 * voltages at once, Gaussian elimination with pivoting. Returns the volts at the nodes, or null
 * where Newton from the unloaded voltages finds no solution. O(n³) for each step.
 */
export function denseSolve(trunk: SupplyTrunk): number[] | null {
  const size = trunk.nodes.length + 1; // node volts, then the port's
  const port = size - 1;
  const conductance = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const connect = (a: number, b: number, ohms: number) => {
    const siemens = 1 / Math.max(ohms, 1e-9);
    conductance[a]![a]! += siemens;
    conductance[b]![b]! += siemens;
    conductance[a]![b]! -= siemens;
    conductance[b]![a]! -= siemens;
  };
  trunk.nodes.forEach((node, i) => {
    const ohms = node.cableMetres * (node.loopOhmsPerMetre ?? trunk.loopOhmsPerMetre);
    connect(i, node.parent ?? port, ohms + (node.jointOhms ?? 0));
  });
  const sourceSiemens = 1 / Math.max(trunk.sourceOhms, 1e-9);
  conductance[port]![port]! += sourceSiemens;

  let volts = new Array<number>(size).fill(trunk.sourceVolts);
  for (let step = 0; step < 60; step++) {
    const jacobian = conductance.map((row) => [...row]);
    const residual = conductance.map((row) => row.reduce((sum, g, j) => sum + g * volts[j]!, 0));
    residual[port]! -= sourceSiemens * trunk.sourceVolts;
    trunk.nodes.forEach(({ load }, i) => {
      if (load?.kind === 'amps') residual[i]! += load.amps;
      if (load?.kind === 'watts') {
        residual[i]! += load.watts / volts[i]!;
        jacobian[i]![i]! -= load.watts / volts[i]! ** 2;
      }
    });
    const move = eliminate(jacobian, residual);
    volts = volts.map((v, i) => v - move[i]!);
    if (Math.max(...move.map(Math.abs)) < 1e-11) return volts.slice(0, port);
  }
  return null;
}

function eliminate(matrix: number[][], right: number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const size = rows.length;
  for (let i = 0; i < size; i++) {
    let best = i;
    for (let j = i + 1; j < size; j++) {
      if (Math.abs(rows[j]![i]!) > Math.abs(rows[best]![i]!)) best = j;
    }
    [rows[i], rows[best]] = [rows[best]!, rows[i]!];
    for (let j = i + 1; j < size; j++) {
      const factor = rows[j]![i]! / rows[i]![i]!;
      for (let k = i; k <= size; k++) rows[j]![k]! -= factor * rows[i]![k]!;
    }
  }
  const solution = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i--) {
    let sum = rows[i]![size]!;
    for (let k = i + 1; k < size; k++) sum -= rows[i]![k]! * solution[k]!;
    solution[i] = sum / rows[i]![i]!;
  }
  return solution;
}
