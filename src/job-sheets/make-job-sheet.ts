import type { LocationDto } from '../locating/location.dto.js';
import type { Outcome } from '../plan/error-rates.js';
import type { AsBuilt } from '../sites/as-built.js';
import { nameNodesOf } from '../sites/drawing.js';
import type { SiteDto } from '../sites/site.dto.js';
import { isInVan, type VanPart } from '../vans/van-parts.js';
import type { VisitDto } from '../visits/visit.dto.js';
import type { WalkDto } from '../walks/walk.dto.js';
import { type Language, type Words, wordsIn } from '../words/index.js';
import type { JobSheetDto, JobTicketDto, JobTrunkDto } from './job-sheet.dto.js';
import type { JobSheetFacts, JobObservation } from './job-sheet-facts.repository.js';

const PLACES_TOLD = 3;
const CHECKS_TOLD = 4;
const SAID_TOLD = 200;

export interface JobSheetQuestion {
  visit: VisitDto;
  site: SiteDto;
  facts: Omit<JobSheetFacts, 'tickets'>;
  tickets: {
    id: string;
    number: number;
    said: JobObservation[];
    asBuilt: AsBuilt;
    /** Answers in JSON; null where the locator refuses the evidence. */
    location: string | null;
    walk: string | null;
  }[];
  /** What the van of whoever goes carries; null: nobody said. */
  van: readonly VanPart[] | null;
  furtherTickets: number[];
  language: Language;
  madeAt: Date;
}

/** What a technician takes along to a visit. */
export function makeJobSheet(question: JobSheetQuestion): JobSheetDto {
  const { visit, site, facts, van, language } = question;
  const words = wordsIn(language);
  const { id, name, address, safetyNotes, servesEmergencyCalls } = site;
  const { cautions, emergencyCaution } = words.walk;
  return {
    visitId: visit.id,
    on: visit.on,
    fromTime: visit.fromTime,
    untilTime: visit.untilTime,
    technician: facts.technician,
    purpose: visit.purpose,
    upkeep: visit.upkeep,
    site: { id, name, address, safetyNotes, servesEmergencyCalls },
    tickets: question.tickets.map((ticket) => ticketOf(ticket, van, words)),
    furtherTickets: question.furtherTickets,
    cautions: servesEmergencyCalls ? [emergencyCaution, ...cautions] : [...cautions],
    lastVisits: facts.lastVisits,
    madeAt: question.madeAt,
  };
}

function ticketOf(
  { id, number, said, asBuilt, location, walk }: JobSheetQuestion['tickets'][number],
  van: JobSheetQuestion['van'],
  words: Words,
): JobTicketDto {
  const located = location === null ? null : (JSON.parse(location) as LocationDto);
  const nameNode = nameNodesOf(asBuilt, words);
  const lookAt = located?.places[0]?.place ?? null;
  return {
    id,
    number,
    said: mostTelling(said).map(({ trunk, node, function: name, outcome, saidBy }) =>
      words.said({ room: nameNode(trunk, node), function: name, outcome, saidBy }),
    ),
    furtherSaid: Math.max(0, said.length - SAID_TOLD),
    ...foundOf(located),
    ...plannedOf(walk === null ? null : (JSON.parse(walk) as WalkDto), van),
    trunks: asBuilt.trunks
      .filter(({ trunk }) => said.some((one) => one.trunk === trunk))
      .map((trunk) => trunkOf(trunk, said, nameNode, lookAt)),
  };
}

function foundOf(located: LocationDto | null): Pick<JobTicketDto, 'first' | 'places' | 'checks'> {
  if (located === null) return { first: null, places: [], checks: [] };
  return {
    first: located.first.words,
    places: located.places.slice(0, PLACES_TOLD).map((place) => place.words),
    checks: located.technicianChecks.slice(0, CHECKS_TOLD).map((check) => check.words),
  };
}

type Planned = Pick<
  JobTicketDto,
  'plan' | 'expectedMinutes' | 'walkTestMinutes' | 'parts' | 'secondTripChance'
>;

function plannedOf(walk: WalkDto | null, van: JobSheetQuestion['van']): Planned {
  const none = { expectedMinutes: null, walkTestMinutes: null, secondTripChance: null };
  if (walk === null) return { plan: [], parts: [], ...none };
  const { printed, expectedMinutes, walkTestMinutes, secondTripChance } = walk;
  const parts = walk.parts.map((part) => ({
    ...part,
    isInVan: van === null ? null : isInVan(van, part.id),
  }));
  return { plan: printed, expectedMinutes, walkTestMinutes, parts, secondTripChance };
}

/** Of several functions at a node what fails is drawn, else what is weak. */
const WORST_FIRST = ['fails', 'weak', 'works'] as const;

/** Where there is too much to list: what is silent before what is weak and what is heard, and of each the latest. As they came. */
function mostTelling(said: readonly JobObservation[]): readonly JobObservation[] {
  if (said.length <= SAID_TOLD) return said;
  const latestFirst = said.toReversed();
  const ordered = WORST_FIRST.flatMap((outcome) =>
    latestFirst.filter((one) => one.outcome === outcome),
  );
  const told = new Set(ordered.slice(0, SAID_TOLD));
  return said.filter((one) => told.has(one));
}

function trunkOf(
  { trunk, nodes }: AsBuilt['trunks'][number],
  said: readonly JobObservation[],
  nameNode: (trunk: string, node: string) => string,
  lookAt: LocationDto['places'][number]['place'] | null,
): JobTrunkDto {
  const heardAt = new Map<string, Set<Outcome>>();
  for (const { trunk: where, node, outcome } of said) {
    if (where === trunk) heardAt.set(node, (heardAt.get(node) ?? new Set()).add(outcome));
  }
  return {
    trunk,
    nodes: nodes.map(({ node, fedFrom, kind, cableMetres }) => ({
      node,
      fedFrom,
      isStation: kind === 'station',
      words: nameNode(trunk, node),
      cableMetres,
    })),
    marks: nodes.flatMap(({ node }) => {
      const outcome = WORST_FIRST.find((one) => heardAt.get(node)?.has(one));
      return outcome === undefined ? [] : { node, outcome };
    }),
    lookAt:
      lookAt !== null && 'to' in lookAt && lookAt.trunk === trunk ? (lookAt.to ?? null) : null,
  };
}
