// What the requests of more than one test are made of.

export const station = (id: string, cableMetres: number, fedFrom?: string | null) =>
  ({ id, kind: 'station', cableMetres, fedFrom }) as const;
export const box = (id: string, cableMetres: number, fedFrom?: string | null) =>
  ({ id, kind: 'junction-box', cableMetres, fedFrom }) as const;
export const saw = (
  node: string,
  name: string,
  outcome: string,
  informant?: string,
  trunk = 'A',
) => {
  const who =
    informant === undefined
      ? undefined
      : informant === 'technician'
        ? { kind: 'technician' }
        : { id: informant, kind: 'office' };
  return { trunk, node, function: name, outcome, informant: who };
};

/** Names of forty rooms, in their order. */
export const ROOMS_IN_A_ROW = Array.from(
  { length: 40 },
  (_, n) => `A${String(n + 1).padStart(2, '0')}`,
);

export const volts = (node: string, value: number, uncertaintyVolts = 0.05, trunk = 'A') =>
  ({ kind: 'supply-volts', trunk, node, volts: value, uncertaintyVolts }) as const;
export const loop = (core: string, ohms: number, uncertaintyOhms = 0.05, trunk = 'A') =>
  ({ kind: 'loop-ohms', trunk, core, ohms, uncertaintyOhms }) as const;
export const continuity = (
  from: string | null,
  to: string,
  cores: string[],
  passes: boolean,
  trunk = 'A',
) => ({ kind: 'continuity', trunk, from, to, cores, passes }) as const;

export const ELECTRICAL = {
  sourceVolts: 24,
  sourceOhms: 0.2,
  stationAmps: 0.08,
  coreOhmsPerKm: 18.1,
};

export const ROW = [station('A1', 30), station('A2', 25), station('A3', 40)];
export const TEE = [box('T', 60), station('A1', 40, 'T'), station('A2', 25, 'T')];
export const LONG_TEE = [box('T', 40), station('A1', 21, 'T'), station('A2', 60, 'T')];

/** What two callers, who may be confused, told of two trunks. */
export const TOLD_BY_CALLERS = {
  trunks: [
    { id: 'A', nodes: [station('A1', 35), station('A2', 20, 'A1'), station('A3', 28, 'A1')] },
    { id: 'B', nodes: [station('B1', 15)] },
  ],
  exposureDays: 365,
  electrical: ELECTRICAL,
  observations: [
    saw('A2', 'bell', 'fails', 'p'),
    saw('A3', 'bell', 'works', 'p'),
    saw('B1', 'bell', 'works', 'p', 'B'),
    saw('A3', 'lamp', 'fails', 'q'),
    saw('A1', 'lamp', 'fails', 'q'),
  ],
};
