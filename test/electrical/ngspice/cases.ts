import type { Load, SupplyTrunk, TrunkNode } from '#app/locator/electrical/index.js';

const amps = (value: number): Load => ({ kind: 'amps', amps: value });
const watts = (value: number): Load => ({ kind: 'watts', watts: value });

function path(loads: Load[], metres: number[]): TrunkNode[] {
  return loads.map((load, i) => ({
    parent: i === 0 ? null : i - 1,
    cableMetres: metres[i] ?? 0,
    load,
  }));
}

/** Two first spans, tees, a thinner branch, a bad joint, junction boxes without load. */
function teed(load: (i: number) => Load): TrunkNode[] {
  return [
    { parent: null, cableMetres: 18, load: load(0) },
    { parent: 0, cableMetres: 9.5 },
    { parent: 1, cableMetres: 22, load: load(2) },
    { parent: 2, cableMetres: 14, load: load(3) },
    { parent: 1, cableMetres: 35, load: load(4), loopOhmsPerMetre: 0.072 },
    { parent: 4, cableMetres: 11, load: load(5), jointOhms: 2.5 },
    { parent: 4, cableMetres: 6 },
    { parent: 6, cableMetres: 40, load: load(7) },
    { parent: null, cableMetres: 50, load: load(8) },
    { parent: 8, cableMetres: 25, load: load(9) },
  ];
}

const sixty = Array.from({ length: 60 }, (_, i): TrunkNode => {
  const parent = i === 0 ? null : i % 7 === 0 ? i - 5 : i - 1;
  const load = i % 3 === 0 ? amps(0.03) : i % 3 === 1 ? watts(0.5) : undefined;
  return { parent, cableMetres: 4 + ((i * 37) % 11), load };
});

const source = { sourceVolts: 24, sourceOhms: 0.2, loopOhmsPerMetre: 0.0362 };

/** The drawings that ngspice was run on; the name is the input file's. */
export const CASES: Readonly<Record<string, SupplyTrunk>> = {
  'published-five': {
    ...source,
    sourceOhms: 0,
    nodes: path([0.12, 0.08, 0.15, 0.06, 0.09].map(amps), [50, 40, 60, 30, 70]),
  },
  'current-with-tees': { ...source, nodes: teed((i) => amps(0.05 + 0.01 * i)) },
  'power-path': { ...source, nodes: path([2, 1.5, 2.5, 1, 3].map(watts), [50, 40, 60, 30, 70]) },
  'power-with-tees': { ...source, nodes: teed((i) => watts(1 + 0.1 * i)) },
  'mixed-with-tees': { ...source, nodes: teed((i) => (i % 2 === 0 ? amps(0.08) : watts(1.8))) },
  'power-near-collapse': {
    ...source,
    sourceOhms: 0,
    loopOhmsPerMetre: 0.04,
    nodes: path([watts(35.9)], [100]),
  },
  'sixty-mixed': { ...source, loopOhmsPerMetre: 0.0242, nodes: sixty },
};
