import type { TicketQuestion } from '#app/locating/ticket-facts.js';
import { FUNCTIONS } from '#app/plan/functions.js';
import type { Heard } from '#app/reports/observation.js';
import { blankNode } from '#app/sites/as-built-fields.js';
import { NOTHING_DRAWN, type AsBuilt } from '#app/sites/as-built.js';
import { seededRandom } from '#app/statistics/seeded-random.js';

const AT = new Date('2026-03-02T09:00:00Z');
const HOUR = 3_600_000;

function drawingOf(rooms: number, row: number): AsBuilt {
  const trunks = Math.ceil(rooms / row);
  return {
    ...NOTHING_DRAWN,
    trunks: Array.from({ length: trunks }, (_, t) => ({
      trunk: 'ABCDEFGH'[t]!,
      name: `Trunk ${t}`,
      port: null,
      nodes: Array.from({ length: Math.ceil(rooms / trunks) }, (__, n) => ({
        ...blankNode(`${'ABCDEFGH'[t]}${n + 1}`, 8 + ((n * 7) % 13)),
        fedFrom: n === 0 ? null : `${'ABCDEFGH'[t]}${n}`,
        room: `Room ${t}${n + 1}`,
      })),
    })),
  };
}

interface ContradictingTicket {
  reports: number;
  callers: number;
  rooms: number;
  /** Rooms of a trunk at most. */
  row?: number;
  /** An hour apart. */
  sittings?: number;
}

/** Reports at random, of as many callers about as many rooms: what one says works, another says is silent. */
export function contradictingTicket({
  reports,
  callers,
  rooms,
  row = 26,
  sittings = 1,
}: ContradictingTicket): TicketQuestion {
  const random = seededRandom(reports);
  const below = (count: number) => Math.floor(random() * count);
  const drawing = drawingOf(rooms, row);
  const nodes = drawing.trunks.flatMap(({ trunk, nodes: all }) =>
    all.map(({ node }) => ({ trunk, node })),
  );
  const heard = new Map<string, Heard>();
  while (heard.size < reports) {
    const n = below(nodes.length);
    const one: Heard = {
      ...nodes[n]!,
      id: `01900000-0000-7000-8000-${String(heard.size).padStart(12, '0')}`,
      function: FUNCTIONS[below(FUNCTIONS.length)]!,
      outcome: (['works', 'fails', 'weak'] as const)[below(3)]!,
      saidBy: `Caller ${below(callers)}`,
      saidByKind: 'office',
      how: 'gone-through',
      observedAt: new Date(AT.getTime() + Math.floor((heard.size * sittings) / reports) * HOUR),
      period: 1,
      withdrawalId: null,
    };
    const key = [one.saidBy, one.node, one.function].join(' ');
    if (!heard.has(key)) heard.set(key, one);
  }
  return {
    ticket: {
      id: '01900000-0000-7000-8000-0000000000aa',
      siteId: '01900000-0000-7000-8000-0000000000bb',
      asBuiltVersion: 1,
      state: 'reported',
      openedAt: AT,
      period: 1,
    },
    drawing,
    heard: JSON.stringify([...heard.values()]),
    entries: '[]',
    readings: '[]',
    looks: '[]',
    nearby: '[]',
    rates: '[]',
    errors: 'null',
    headEndNow: JSON.stringify(drawing.headEnd),
    heardBefore: '[]',
    work: '[]',
    language: 'en',
  };
}
