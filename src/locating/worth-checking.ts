import {
  checksOfBoth,
  type ErrorRates,
  type ExpectedFaults,
  type LocateRequest,
  type LookedAt,
  officeChecksAboutCauses,
  type RankedCheck,
  type WeighedTroubles,
} from '../locator/index.js';
import type { CheckToMakeDto } from './checks.dto.js';
import { type DrawnRecord, findNode, nameNodesOf } from '../sites/drawing.js';
import { questionOf } from '../reports/office-questions.js';
import { isTrouble } from '../reports/observation.js';
import type { Words } from '../words/index.js';
import type { Evidence } from './evidence.js';
import type { WhileItFails } from './while-it-fails.js';

/** What the checks of a ticket are worked out from. */
export interface WhatIsKnown {
  drawing: DrawnRecord;
  posed: LocateRequest;
  errors: ErrorRates;
  expected: ExpectedFaults;
  lookedAt: LookedAt;
  evidence: Evidence;
  /** Null where what is known is gone by as it is. */
  whileItFails: WhileItFails | null;
}

/** A list of lamps is one check said many times: of a technician's, the best of each kind. */
const OF_A_KIND = 2;

/** At most three, each chosen because it adds most to those before it, and tells something of what the cause is. */
export function checksForOffice(known: WhatIsKnown, words: Words): CheckToMakeDto[] {
  if (isNothingToTell(known)) return [];
  return officeChecksAboutCauses({ ...known, request: asItFails(known) }).map((one) =>
    toCheck(one, known.drawing, words),
  );
}

/** Of what was said of rooms nothing that counts failed, or it works now and will fail again. */
function isNothingToTell({ evidence, whileItFails }: WhatIsKnown): boolean {
  const { used, leftOut } = evidence;
  if (whileItFails?.isQuiet === true) return true;
  return used.length + leftOut.length > 0 && !used.some(isTrouble);
}

function asItFails({ posed, whileItFails }: WhatIsKnown): LocateRequest {
  return { ...posed, ...whileItFails?.said };
}

/**
 * The same, and for a technician the two of each kind that tell most about the causes, the most telling for each minute
 * first.
 */
export function checksForBoth(
  known: WhatIsKnown & { known?: WeighedTroubles },
  words: Words,
): { officeChecks: CheckToMakeDto[]; technicianChecks: CheckToMakeDto[] } {
  if (isNothingToTell(known)) return { officeChecks: [], technicianChecks: [] };
  const weighed = known.whileItFails === null ? known.known : undefined;
  const of = { ...known, request: asItFails(known), known: weighed };
  const { office, technician } = checksOfBoth(of, OF_A_KIND);
  const ofKind = new Map<string, number>();
  const best = technician.filter(({ action: { kind } }) => {
    ofKind.set(kind, (ofKind.get(kind) ?? 0) + 1);
    return (ofKind.get(kind) ?? 0) <= OF_A_KIND;
  });
  const said = (one: RankedCheck) => toCheck(one, known.drawing, words);
  return { officeChecks: office.map(said), technicianChecks: best.map(said) };
}

function toCheck(
  { action, ...figures }: RankedCheck,
  drawing: DrawnRecord,
  words: Words,
): CheckToMakeDto {
  const trunk = 'trunk' in action ? action.trunk : null;
  const node = 'node' in action ? action.node : 'to' in action ? action.to : null;
  const drawn = trunk === null || node === null ? undefined : findNode(drawing, trunk, node);
  return {
    words: words.check(action, nameNodesOf(drawing, words)),
    kind: action.kind,
    trunk,
    node,
    room: drawn?.room ?? null,
    function: 'function' in action ? action.function : null,
    question: questionOf(action),
    ...figures,
  };
}
