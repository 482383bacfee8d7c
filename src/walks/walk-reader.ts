import { type WorldAnswers, type WorldFault, worldReader } from '../locator/worlds/index.js';

export type WorldReader = ReturnType<typeof worldReader>;

/** The same faults are asked about at every check. */
export function rememberedReader(request: Parameters<typeof worldReader>[0]): WorldReader {
  const read = worldReader(request);
  const known = new Map<string, WorldAnswers>();
  const keys = new WeakMap<WorldFault, string>();
  const keyOf = (fault: WorldFault) => {
    const key = keys.get(fault) ?? JSON.stringify(fault);
    keys.set(fault, key);
    return key;
  };
  let last: { faults: readonly WorldFault[]; answers: WorldAnswers } | null = null;
  return (world) => {
    if (last?.faults === world.faults) return last.answers;
    const key = world.faults.map(keyOf).join();
    const answers = known.get(key) ?? read(world);
    known.set(key, answers);
    last = { faults: world.faults, answers };
    return answers;
  };
}
