import { type ErrorRates, locate, type LocateRequest } from '#app/locator/index.js';
import type { ConditionAt } from './go-through.js';
import { type PlaceChances, placeChances, toRequest } from './places.js';
import { pick, type Random, roomsOf, type Site } from './site.js';
import { drawOutcome, type Told, told } from './tell.js';
import type { FunctionName } from './true-conditions.js';

export const REPORT_RATE = 0.3;

export interface Volunteered {
  complaint: FunctionName;
  /** Nobody volunteers what is not so. */
  reports: Told[];
  /** The office's answers about the lamps of up to two of those rooms. */
  answers: Told[];
}

/**
 * Rooms volunteered, not gone through: a dead function is reported with the report rate, a weak one with half of it, a
 * good one never. No report, no case.
 */
export function volunteer(
  site: Site,
  condition: ConditionAt,
  random: Random,
): Volunteered | undefined {
  const complaint = pick(['bell', 'announcement', 'music'] as const, random);
  const office = { kind: 'office' } as const;
  const reporting = roomsOf(site).flatMap((room) => {
    const truly = condition(room.trunk, room.node, complaint);
    const rate = { good: 0, weak: REPORT_RATE / 2, dead: REPORT_RATE }[truly];
    if (random() >= rate) return [];
    return [
      { room, report: told(site, room, complaint, truly === 'weak' ? 'weak' : 'fails', office) },
    ];
  });
  if (reporting.length === 0) return undefined;
  const answers = reporting.slice(0, 2).map(({ room }) => {
    const outcome = drawOutcome(office, condition(room.trunk, room.node, 'lamp'), random);
    return told(site, room, 'lamp', outcome, office);
  });
  return { complaint, reports: reporting.map(({ report }) => report), answers };
}

/** As the record says how it came about: silence about a room weighs what it weighs. */
export function posedAsVolunteered(site: Site, heard: Volunteered): LocateRequest {
  return {
    ...toRequest(site, [...heard.reports, ...heard.answers]),
    unmentioned: { reportRate: REPORT_RATE, functions: [heard.complaint] },
  };
}

/** The trap: every room that nobody mentioned is taken to have been heard. */
export function posedAsHeard(site: Site, heard: Volunteered): LocateRequest {
  const mentioned = new Set(heard.reports.map(({ trunk, node }) => `${trunk} ${node}`));
  const unmentioned = roomsOf(site)
    .map((room) => told(site, room, heard.complaint, 'works', { kind: 'office' }))
    .filter(({ trunk, node }) => !mentioned.has(`${trunk} ${node}`));
  return toRequest(site, [...heard.reports, ...heard.answers, ...unmentioned]);
}

// What a report says when only what is so is reported. No technician speaks here, so the reports can have his row; that
// nothing is said stands where "works" does, which no report says.
const REPORTS: ErrorRates['technician'] = {
  good: [1, 0, 0],
  weak: [1 - REPORT_RATE / 2, REPORT_RATE / 2, 0],
  dead: [1 - REPORT_RATE, 0, REPORT_RATE],
  confused: 0,
};

/** The true generator's own posterior. */
export function volunteersPosterior(
  site: Site,
  heard: Volunteered,
  office: ErrorRates['office'],
): PlaceChances {
  const reports = heard.reports.map((one) => ({
    ...one,
    informant: { kind: 'technician' as const },
  }));
  const request = posedAsVolunteered(site, { ...heard, reports });
  return placeChances(
    site,
    locate({ ...request, explanations: 0 }, { office, technician: REPORTS }),
  );
}
