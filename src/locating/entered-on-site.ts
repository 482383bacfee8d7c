import type { EvidenceFacts } from './pose-evidence.js';
import type { RequestReading } from '../locator/index.js';
import type { SeenPart } from '../looks/look.js';
import type { ReadAbout } from '../readings/taken-reading.js';
import type { Heard } from '../reports/observation.js';
import { lookFound } from '../tickets/check-finding.js';
import type { EndedStep } from '../tickets/ticket-log.js';

interface Informed {
  saidBy: { name: string; kind: 'office' | 'technician' };
}

type SentLook = Omit<SeenPart, 'group'> & { group?: string | null };
type SentHeard = Pick<Heard, 'trunk' | 'node' | 'function' | 'disconnectedBelow'> & {
  outcome: Heard['outcome'] | 'not-checked';
};
type SentFinding = { place?: SeenPart['place'] | null } & Partial<
  Record<'component' | 'mode', string | null>
>;

/** What a technician enters on a ticket, as its route takes it, with the id and instant that it was given at once. */
export type EnteredOnSite = { id: string; happenedAt: string } & (
  | { route: 'reports'; body: Informed & { how: Heard['how']; observations: SentHeard[] } }
  | { route: 'walk-tests'; body: Informed & { observations: SentHeard[] } }
  | { route: 'looks'; body: Informed & (SentLook | { looks: SentLook[] }) }
  | { route: 'readings'; body: { takenBy: Informed['saidBy']; reading: RequestReading } }
  | { route: 'findings'; body: Informed & SentFinding }
  | { route: 'mendings' | 'mending-withdrawals' | 'moves'; body: Informed }
  | { route: 'notes'; body: Informed & { note: string; step?: EndedStep } }
);

/** A ticket’s evidence as the service will have it once it was sent what was entered on site, oldest first. */
export function withEntered(
  facts: EvidenceFacts,
  entered: readonly EnteredOnSite[],
): EvidenceFacts {
  return entered.reduce(withOne, facts);
}

function withOne(facts: EvidenceFacts, one: EnteredOnSite): EvidenceFacts {
  const { id } = one;
  const at = new Date(one.happenedAt);
  const { period } = facts.ticket;
  const lookRow = (look: SeenPart, { saidBy: { name, kind } }: Informed) => {
    const row = { ...look, id, saidBy: name, saidByKind: kind, lookedAt: at, period };
    return { ...row, withdrawalId: null };
  };
  switch (one.route) {
    case 'reports':
      return { ...facts, heard: [...facts.heard, ...heardIn(one, one.body.how, period)] };
    case 'walk-tests':
      return { ...facts, heard: [...facts.heard, ...heardIn(one, 'walk-test', period)] };
    case 'looks': {
      const { body } = one;
      const looks = ('looks' in body ? body.looks : [body]).map(
        ({ place, part, group = null, seen }) => lookRow({ place, part, group, seen }, body),
      );
      return { ...facts, looks: [...facts.looks, ...looks] };
    }
    case 'readings':
      return { ...facts, readings: [...facts.readings, readIn(one, at, period)] };
    case 'findings': {
      const { place = null, component, mode } = one.body;
      const look = lookFound(place, component, mode);
      if (look === null) return facts;
      return { ...facts, looks: [...facts.looks, lookRow(look, one.body)] };
    }
    case 'mendings': {
      const entries = [...facts.entries, entry('mending', at, {})];
      return { ...facts, ticket: { ...facts.ticket, period: period + 1 }, entries };
    }
    case 'mending-withdrawals':
      return withoutLastMending(facts);
    case 'notes': {
      const { step } = one.body;
      if (step === undefined) return facts;
      return { ...facts, entries: [...facts.entries, entry('note', at, { step })] };
    }
    case 'moves':
      return facts;
  }
}

/** The mending before all that was said last is taken back: what was said since is of the period before it. */
function withoutLastMending(facts: EvidenceFacts): EvidenceFacts {
  const { ticket, entries } = facts;
  const last = entries.findLastIndex(({ kind }) => kind === 'mending');
  if (last < 0) return facts;
  const moved = <Row extends { period: number | null }>(row: Row): Row =>
    row.period === ticket.period ? { ...row, period: ticket.period - 1 } : row;
  return {
    ...facts,
    ticket: { ...ticket, period: ticket.period - 1 },
    entries: entries.filter((_, at) => at !== last),
    heard: facts.heard.map(moved),
    looks: facts.looks.map(moved),
    readings: facts.readings.map(moved),
  };
}

function entry(kind: string, happenedAt: Date, details: { step?: EndedStep }) {
  return { kind, saidByKind: 'technician', happenedAt, details };
}

function heardIn(
  { id, happenedAt, body }: Extract<EnteredOnSite, { route: 'reports' | 'walk-tests' }>,
  how: Heard['how'],
  period: number,
): Heard[] {
  const { saidBy, observations } = body;
  return observations.flatMap(({ outcome, ...point }, at) =>
    outcome === 'not-checked'
      ? []
      : {
          ...point,
          id: `${id} ${at}`,
          outcome,
          saidBy: saidBy.name,
          saidByKind: saidBy.kind,
          how,
          observedAt: new Date(happenedAt),
          period,
          withdrawalId: null,
        },
  );
}

function readIn(
  { id, body }: Extract<EnteredOnSite, { route: 'readings' }>,
  takenAt: Date,
  period: number,
): ReadAbout {
  const { takenBy, reading } = body;
  return {
    id,
    kind: reading.kind,
    trunk: reading.trunk,
    node: null,
    core: null,
    value: null,
    uncertainty: null,
    reading,
    takenBy: takenBy.name,
    takenByKind: takenBy.kind,
    takenAt,
    period,
    withdrawalId: null,
  };
}
