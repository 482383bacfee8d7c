import { drawingOf } from '../sites/drawing.js';
import { type Mark, signsInText, trunkInText, wordsIn } from '../words/index.js';
import type { ApiClient } from './api-client.js';
import type { SeedTicket } from './seed-files.js';

/** Fixed, so that a second run repeats the same report and is answered as the first time. */
const REPORT_ID = '01900000-0000-7000-8000-00000000d001';

/** The API lists more. */
const TECHNICIAN_CHECKS = 5;

interface Check {
  words: string;
  informationBits: number;
  minutes: number;
}

interface Location {
  asBuiltVersion: number;
  officeChecks: Check[];
  technicianChecks: Check[];
  first: { words: string };
  troubles: { words: string; causes: { halve: { words: string } | null }[] }[];
  alsoBroken: { words: string }[];
  contradictions: { words: string }[];
  drawingDoubts: { words: string; tellApartWords: string; probability: number }[];
  surprise: { drawingMayBeWrong: boolean; mostSurprising: { words: string }[] } | null;
  places: {
    words: string;
    place: { kind: string; trunk?: string; to?: string };
    probability: number;
    components: { words: string; faulty: number }[];
    silentIfSo: { trunk: string; node: string; room: string | null }[];
  }[];
}

interface Record {
  trunks: {
    trunk: string;
    nodes: {
      node: string;
      kind: 'station' | 'junction-box';
      fedFrom: string | null;
      cableMetres: number;
      room: string | null;
    }[];
  }[];
}

/** Does the main job once: rooms go silent, and the answer is where to go. Gives its text. */
export async function mainJob(
  api: ApiClient,
  site: { id: string; name: string },
  seed: SeedTicket,
): Promise<string> {
  const { saidBy, how, observations, note } = seed;
  const report = { id: REPORT_ID, saidBy, how, observations, note };
  const { tickets } = await api.post<{
    tickets: [{ id: string; number: number; joined: boolean }];
  }>(`/sites/${site.id}/reports`, report);
  const words = wordsIn('en');
  const [ticket] = tickets;
  const location = await api.get<Location>(`/tickets/${ticket.id}/location`);
  const record = await api.get<Record>(
    `/sites/${site.id}/as-built?version=${location.asBuiltVersion}`,
  );
  const [top] = location.places;
  if (top === undefined) throw new Error('The location names no place');
  const drawings = record.trunks.map(({ trunk }) =>
    trunkInText(
      drawingOf(record),
      trunk,
      {
        markOf: markFrom(trunk, seed.observations),
        pointAt:
          top.place.kind === 'span' && top.place.trunk === trunk ? (top.place.to ?? null) : null,
      },
      words,
    ),
  );
  return [
    `${saidBy.name} at ${site.name} says: ${note ?? ''}`,
    signsInText(words),
    '',
    ...drawings,
    '',
    ...whereToGo(location),
    '',
    'Worth doing now by the office, without anybody driving there:',
    ...location.officeChecks.map(inWords),
    'Worth doing there, meter in hand:',
    ...location.technicianChecks.slice(0, TECHNICIAN_CHECKS).map(inWords),
    ...moreInWords(location),
    ...doubtInWords(location),
    '',
    `Ticket ${ticket.number} ${ticket.joined ? 'was open already and has this report' : 'was opened'}: ` +
      `/api/v1/tickets/${ticket.id}`,
    'The locator advises; the person on site decides. Isolate and prove dead before opening anything.',
  ].join('\n');
}

function whereToGo({ troubles, first, places }: Location): string[] {
  const percent = (chance: number) => `${(chance * 100).toFixed(1).padStart(5)} %`;
  const [top, ...others] = places;
  const rooms = top?.silentIfSo.map(({ room, node }) => room ?? node) ?? [];
  return [
    'What breaks what:',
    ...troubles.map(({ words }) => `  ${words}`),
    '',
    first.words,
    '',
    'Where to go, likeliest first:',
    `  1. ${top?.words}`,
    ...(top?.components ?? []).map(({ words, faulty }) => `       ${percent(faulty)}  ${words}`),
    ...others.map(({ words }, index) => `  ${index + 2}. ${words}`),
    '',
    `If the first is right, silent are: ${rooms.join(', ') || 'none'}`,
  ];
}

function inWords({ words, informationBits, minutes }: Check, index: number): string {
  return `  ${index + 1}. ${words} (${informationBits.toFixed(2)} bits, ${minutes} min)`;
}

/** What else is to be known before anybody goes. */
function moreInWords({ troubles, alsoBroken, contradictions, drawingDoubts }: Location): string[] {
  const halves = troubles.flatMap(({ causes }) => causes.flatMap(({ halve }) => halve ?? []));
  const doubts = drawingDoubts.map(({ words, tellApartWords }) => `${words}; ${tellApartWords}`);
  const said = [...halves, ...alsoBroken, ...contradictions].map(({ words }) => words);
  return [...said, ...doubts].map((words) => `  ${words}`);
}

function doubtInWords({ surprise }: Location): string[] {
  if (surprise?.drawingMayBeWrong !== true) return [];
  return [
    '',
    'The drawing may be wrong. What goes worst with the rest:',
    ...surprise.mostSurprising.map(({ words }) => `  ${words}`),
  ];
}

function markFrom(trunk: string, observations: SeedTicket['observations']): (node: string) => Mark {
  return (node) => {
    const outcomes = new Set(
      observations
        .filter((one) => one.trunk === trunk && one.node === node)
        .map((one) => one.outcome),
    );
    if (outcomes.has('works') && outcomes.has('fails')) return 'contradicted';
    if (outcomes.has('fails')) return 'silent';
    if (outcomes.has('weak')) return 'weak';
    return outcomes.has('works') ? 'heard' : 'not checked';
  };
}
