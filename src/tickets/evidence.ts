import type { FunctionName, LocateRequest } from '../locator/index.js';
import { type Drawing, findNode } from './drawing.js';
import { type Heard, pointKey } from './observation.js';

/**
 * How likely somebody is to volunteer that a silent room is silent. An invented starting value, to
 * be replaced by a firm's own record.
 */
const REPORT_RATE = 0.3;

/** What of a ticket's observations the locator is asked about, and what was left out of it. */
export interface Evidence {
  request: LocateRequest;
  used: Heard[];
  /** Said again later by the same person, from before a mending, or about a node not on the drawing. */
  leftOut: Heard[];
}

/** Poses a ticket's drawing and observations as the locator's request. */
export function toEvidence(
  drawing: Drawing,
  heard: readonly Heard[],
  exposureDays: number,
): Evidence {
  const period = periodToExplain(heard);
  const used = lastWords(heard).filter(
    (one) => one.period === period && findNode(drawing, one.trunk, one.node) !== undefined,
  );
  const unmentioned = volunteeredFunctions(used);
  return {
    request: {
      trunks: drawing.trunks.map(({ trunk, nodes }) => ({
        id: trunk,
        nodes: nodes.map(({ node, kind, fedFrom, cableMetres }) => ({
          id: node,
          kind,
          fedFrom,
          cableMetres,
        })),
      })),
      exposureDays,
      observations: used.map((one) => ({
        trunk: one.trunk,
        node: one.node,
        function: one.function,
        outcome: one.outcome,
        informant: { id: informantId(one), kind: one.saidByKind },
      })),
      ...(unmentioned.length > 0 && {
        unmentioned: { reportRate: REPORT_RATE, functions: unmentioned },
      }),
    },
    used,
    leftOut: heard.filter((one) => !used.includes(one)),
  };
}

/** The last period in which something did not work: a mending makes a new one. */
function periodToExplain(heard: readonly Heard[]): number {
  const troubled = heard.filter(({ outcome }) => outcome !== 'works');
  return Math.max(0, ...troubled.map(({ period }) => period));
}

/** The same person saying the same thing twice is not two people: the last word counts. */
function lastWords(heard: readonly Heard[]): Heard[] {
  const last = new Map<string, Heard>();
  for (const one of [...heard].sort((a, b) => a.observedAt.getTime() - b.observedAt.getTime())) {
    last.set(`${one.period} ${informantId(one)} ${pointKey(one)}`, one);
  }
  return [...last.values()];
}

/**
 * Functions that were only volunteered: silence about a room says something there. Where anybody
 * went through a list, a room that is not on it was not checked, and says nothing.
 */
function volunteeredFunctions(used: readonly Heard[]): FunctionName[] {
  const volunteered = used.filter(({ how }) => how === 'volunteered').map((one) => one.function);
  const goneThrough = used.filter(({ how }) => how !== 'volunteered').map((one) => one.function);
  return [...new Set(volunteered)].filter((name) => !goneThrough.includes(name));
}

/** One name in one kind of work is one person, however it was typed. */
function informantId({ saidBy, saidByKind }: Heard): string {
  return `${saidByKind} ${saidBy.trim().toLowerCase().replaceAll(/\s+/g, ' ')}`;
}
