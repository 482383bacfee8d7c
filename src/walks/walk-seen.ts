import { FUNCTIONS } from '../locator/index.js';
import type { ProbableWorld } from '../locator/worlds/index.js';
import { nameNodesOf } from '../sites/drawing.js';
import type { EndedStep } from '../tickets/ticket-log.js';
import type { Words } from '../words/index.js';
import type { WorkTimes } from '../work-times/work-times.js';
import { placeKey } from './walk-place.js';
import type { WorldReader } from './walk-reader.js';
import { type CheckedTrunks, shortChecks, siteChecks } from './walk-site-checks.js';
import type { WalkedDrawing } from './walk-spots.js';

interface Walked {
  drawing: WalkedDrawing;
  read: WorldReader;
  words: Words;
  times: WorkTimes;
}

type Worlds = readonly Pick<ProbableWorld, 'faults' | 'probability'>[];

/**
 * The worlds by Bayes’ rule after what was seen at steps of the walk; what is no check of the drawing, as of another version,
 * says nothing. The same check seen twice: the last counts.
 */
export function goByWhatWasSeen(
  worlds: Worlds,
  seen: readonly EndedStep[],
  { drawing, read, words, times }: Walked,
): Worlds {
  if (seen.length === 0) return worlds;
  const last = new Map(seen.map(({ check, ending }) => [check, ending]));
  const saying = { words, nameNode: nameNodesOf(drawing, words), times };
  const trunks = drawing.trunks.map(({ trunk }) => trunk);
  let told = worlds;
  for (const { key, chances } of checksNamed([...last.keys()], { drawing, trunks, read, saying })) {
    const ending = last.get(key);
    if (ending === undefined) continue;
    told = told.map(({ faults, probability }) => ({
      faults,
      probability: probability * (chances(faults)[ending] ?? 1),
    }));
  }
  for (const [key, ending] of last) {
    const remade = REMADE.exec(key)?.[1];
    if (remade !== undefined && ending === STILL_FAILS) told = withoutFaultAt(told, remade);
  }
  const before = worlds.reduce((sum, { probability }) => sum + probability, 0);
  const after = told.reduce((sum, { probability }) => sum + probability, 0);
  return told.map((one) => ({ ...one, probability: (one.probability * before) / after }));
}

const REMADE = /^remade (.+)$/;
export const STILL_FAILS = 1;
/** That making anew leaves the fault where it was. */
const NOT_MENDED = 0.01;

/** A place by itself, as a step’s check, that was made anew. */
export function remadeCheck(key: string): string {
  return `remade ${key}`;
}

/** What was at fault there is not any more, and was not all. */
function withoutFaultAt(worlds: Worlds, key: string): Worlds {
  return worlds.map(({ faults, probability }) => {
    const left = faults.filter((fault) => placeKey(fault) !== key);
    return left.length === 0 && faults.length > 0
      ? { faults, probability: probability * NOT_MENDED }
      : { faults: left, probability };
  });
}

/** What arrives is of one function. */
function checksNamed(keys: readonly string[], on: CheckedTrunks) {
  const measured = FUNCTIONS.filter((name) => keys.some((key) => key.includes(`"${name}"`)));
  const checks = [
    ...measured.flatMap((name) => siteChecks(on, [name])),
    ...shortChecks(on, 'announcement'),
  ];
  return checks.filter(({ key }) => keys.includes(key));
}
