import { DEFAULT_ERROR_RATES, type FunctionName } from '../locator/index.js';
import type { WalkCheck } from '../walk/index.js';
import type { worldReader, WorldFault } from '../locator/worlds/index.js';
import type { Saying, Standing } from './walk-place.js';
import type { WalkRecord } from './walk-records.js';

/** Something to look at, and what would be seen if certain faults were all that is wrong. */
export interface SiteCheck {
  key: string;
  where: Standing;
  label: string;
  minutes: number;
  outcomes: readonly string[];
  /** Chance of each outcome. */
  chances: (faults: readonly WorldFault[]) => readonly number[];
  /** The one outcome that is seen if nobody errs. */
  outcome: (faults: readonly WorldFault[]) => number;
  /** What is written down of each outcome. */
  records: (outcome: number) => readonly WalkRecord[];
}

type Reader = ReturnType<typeof worldReader>;

const { good, weak, dead } = DEFAULT_ERROR_RATES.technician;
const ROWS = { good, weak, dead };
const CONDITIONS = ['good', 'weak', 'dead'] as const;
const HEARD = ['works', 'weak', 'fails'] as const;
/** A measurement misread, or the wrong core taken. */
const MISREAD = 0.005;

/** Mostly all of them, and then the same list: a reader remembers what it answered of it. */
function only(
  faults: readonly WorldFault[],
  isKept: (fault: WorldFault) => boolean,
): readonly WorldFault[] {
  return faults.every(isKept) ? faults : faults.filter(isKept);
}

/** One function in one room. */
export function roomCheck(
  read: Reader,
  { trunk, node }: { trunk: string; node: string },
  name: FunctionName,
  { words, nameNode, times }: Saying,
): SiteCheck {
  const conditionIn = (faults: readonly WorldFault[]) =>
    read({ faults }).condition(trunk, node, name);
  return {
    key: JSON.stringify(['room', trunk, node, name]),
    where: { trunk, node },
    label: words.walk.tryFunction[name](nameNode(trunk, node)),
    minutes: name === 'lamp' ? times.lookAtLamp : times.listen,
    outcomes: name === 'lamp' ? words.walk.lampSeen : words.walk.heard,
    chances: (faults) => ROWS[conditionIn(faults)],
    outcome: (faults) => CONDITIONS.indexOf(conditionIn(faults)),
    records: (outcome) => [
      { kind: 'heard', trunk, node, function: name, outcome: HEARD[outcome] ?? 'fails' },
    ],
  };
}

/** What arrives at a node's terminals, its own joints left out of it; `node` null: what leaves the head-end. */
export function arrivalCheck(
  read: Reader,
  { trunk, node, nextNode }: { trunk: string; node: string | null; nextNode: string },
  name: FunctionName,
  { words, nameNode, times }: Saying,
): SiteCheck {
  const isPassed = ({ place, component }: WorldFault) => {
    if (place.kind === 'station') return false;
    if (place.kind !== 'span') return true;
    if (node === null) return false;
    return !(component === 'junction-in' && place.trunk === trunk && place.to === node);
  };
  const outcome = (all: readonly WorldFault[]) => {
    const faults = only(all, isPassed);
    return read({ faults }).condition(trunk, node ?? nextNode, name) === 'good' ? 0 : 1;
  };
  const label =
    node === null
      ? words.walk.measureOutput(trunk)
      : words.walk.measureArrival(nameNode(trunk, node));
  const key = JSON.stringify(['arrival', trunk, node, name]);
  return {
    key,
    where: { trunk, node },
    label,
    minutes: times.measure + (node === null ? 0 : times.setUpLadder),
    outcomes: [words.walk.allThere, words.walk.somethingMissing],
    chances: (faults) => (outcome(faults) === 0 ? [1 - MISREAD, MISREAD] : [MISREAD, 1 - MISREAD]),
    outcome,
    records: (seen) => [{ kind: 'step', check: key, ending: seen }],
  };
}

/**
 * Whether a short goes away while everything past a room is disconnected. `name`: what is listened to in the room itself
 * meanwhile; null where nothing can be.
 */
export function disconnectCheck(
  read: Reader,
  { trunk, node }: { trunk: string; node: string },
  name: FunctionName | null,
  { words, nameNode, times }: Saying,
): SiteCheck {
  const outcome = (faults: readonly WorldFault[]) => {
    const { shortsSeen } = read({ faults });
    const seen = shortsSeen(trunk).length;
    return seen > 0 && shortsSeen(trunk, node).length < seen ? 0 : 1;
  };
  const key = JSON.stringify(['disconnect', trunk, node]);
  return {
    key,
    where: { trunk, node },
    label: words.walk.disconnect(nameNode(trunk, node)),
    minutes: times.disconnect + times.setUpLadder,
    outcomes: [words.walk.comesBack, words.walk.doesNotComeBack],
    chances: (faults) => (outcome(faults) === 0 ? [1 - MISREAD, MISREAD] : [MISREAD, 1 - MISREAD]),
    outcome,
    records: (seen) => {
      if (name === null) return [{ kind: 'step', check: key, ending: seen }];
      const outcome = seen === 0 ? 'works' : 'fails';
      return [{ kind: 'heard', trunk, node, function: name, outcome, disconnectedBelow: node }];
    },
  };
}

/**
 * Whether a short goes away while the cable that comes into a room is lifted off there.
 *
 * @param isFedThrough whether what arrives at one node passes another of the trunk; a node passes itself
 */
export function liftedCheck(
  read: Reader,
  { trunk, node }: { trunk: string; node: string },
  isFedThrough: (at: string, node: string) => boolean,
  { words, nameNode, times }: Saying,
): SiteCheck {
  const isLeft = ({ place, component }: WorldFault) => {
    if (place.kind === 'head-end' || place.trunk !== trunk) return true;
    if (place.kind === 'station') return !isFedThrough(place.node, node);
    if (place.kind === 'port') return true;
    return place.to === node ? component !== 'junction-in' : !isFedThrough(place.to, node);
  };
  const outcome = (faults: readonly WorldFault[]) => {
    const seen = read({ faults }).shortsSeen(trunk).length;
    if (seen === 0) return 1;
    return read({ faults: only(faults, isLeft) }).shortsSeen(trunk).length < seen ? 0 : 1;
  };
  const key = JSON.stringify(['lifted', trunk, node]);
  return {
    key,
    where: { trunk, node },
    label: words.walk.liftOff(nameNode(trunk, node)),
    minutes: times.disconnect + times.setUpLadder,
    outcomes: [words.walk.comesBack, words.walk.doesNotComeBack],
    chances: (faults) => (outcome(faults) === 0 ? [1 - MISREAD, MISREAD] : [MISREAD, 1 - MISREAD]),
    outcome,
    records: (seen) => [{ kind: 'step', check: key, ending: seen }],
  };
}

/** As the planner takes it. `isCertain`: as if nobody erred. */
export function asWalkCheck(
  check: SiteCheck,
  spot: number,
  isCertain: boolean,
  faultsOf: (faults: readonly number[], kinds: readonly number[]) => readonly WorldFault[],
): WalkCheck {
  const { label, minutes, outcomes, chances, outcome } = check;
  return {
    label,
    spot,
    minutes,
    outcomes,
    chances: (faults, kinds) => {
      const world = faultsOf(faults, kinds);
      if (!isCertain) return chances(world);
      return outcomes.map((_, k) => (k === outcome(world) ? 1 : 0));
    },
  };
}
