import {
  type ErrorRates,
  type ExpectedFaults,
  type LocateRequest,
  type LookedAt,
  officeChecksAboutCauses,
  type RankedCheck,
  technicianChecksAboutCauses,
} from '../locator/index.js';
import type { CheckToMakeDto } from './checks.dto.js';
import { type DrawnRecord, findNode, nameNodesOf } from '../sites/drawing.js';
import { questionOf } from '../reports/office-questions.js';
import type { Words } from '../words/index.js';

/** What the checks of a ticket are worked out from. */
export interface WhatIsKnown {
  drawing: DrawnRecord;
  posed: LocateRequest;
  errors: ErrorRates;
  expected: ExpectedFaults;
  lookedAt: LookedAt;
}

/** A list of lamps is one check said many times: of a technician's, the best of each kind. */
const OF_A_KIND = 2;

/** At most three, each chosen because it adds most to those before it, and tells something of what the cause is. */
export function checksForOffice(known: WhatIsKnown, words: Words): CheckToMakeDto[] {
  return officeChecksAboutCauses({ ...known, request: known.posed }).map((one) =>
    toCheck(one, known.drawing, words),
  );
}

/** The two of each kind that tell most about the causes, the most telling for each minute first. */
export function checksForTechnician(known: WhatIsKnown, words: Words): CheckToMakeDto[] {
  const ofKind = new Map<string, number>();
  return technicianChecksAboutCauses({ ...known, request: known.posed }, OF_A_KIND)
    .filter(({ action: { kind } }) => {
      ofKind.set(kind, (ofKind.get(kind) ?? 0) + 1);
      return (ofKind.get(kind) ?? 0) <= OF_A_KIND;
    })
    .map((one) => toCheck(one, known.drawing, words));
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
