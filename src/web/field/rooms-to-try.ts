import type { FunctionName } from '#app/locator/index.js';
import type { KeptTicket } from './kept-work.js';
import { withoutTakenBack } from './mended-here.js';
import type { OutboxEntry } from './outbox.js';

export interface PointToTry {
  trunk: string;
  node: string;
  function: FunctionName;
}

export interface TriedPoint extends PointToTry {
  /** As it was said since the last mending here; undefined: not yet. */
  outcome: string | undefined;
}

/**
 * What a walk test tries, room by room along the cable: all that was reported, and the same functions in every other room of
 * those trunks.
 */
export function roomsToTry(kept: KeptTicket, entries: readonly OutboxEntry[]): TriedPoint[] {
  const { ticket, kit } = kept;
  const said = saidSinceMending(kept, entries);
  const functions = new Set<FunctionName>(ticket.stillToProve.map((point) => point.function));
  for (const one of said) functions.add(one.function);
  if (functions.size === 0) functions.add('announcement');
  return kit.drawing.trunks
    .filter(({ trunk }) => ticket.trunks.length === 0 || ticket.trunks.includes(trunk))
    .flatMap(({ trunk, nodes }) =>
      nodes
        .filter(({ kind, isOut }) => kind === 'station' && !isOut)
        .flatMap(({ node, lacks }) =>
          [...functions]
            .filter((name) => !lacks.includes(name))
            .map((name) => {
              const point = { trunk, node, function: name };
              return { ...point, outcome: said.find((one) => isSamePoint(one, point))?.outcome };
            }),
        ),
    );
}

type Said = PointToTry & { outcome: string };

/** Newest first: entered here and not found wrong, and, where nothing was mended here since, what the kit knows. */
function saidSinceMending({ ticket, kit }: KeptTicket, entries: readonly OutboxEntry[]): Said[] {
  const own = withoutTakenBack(entries).filter(({ subject }) => subject.ticketId === ticket.id);
  const mended = own.map(({ path }) => path.endsWith('/mendings')).lastIndexOf(true);
  const here = own
    .slice(mended + 1)
    .filter(({ path, refusal }) => path.endsWith('/walk-tests') && refusal?.status !== 422)
    .reverse()
    .flatMap(({ body }) => body['observations'] as Said[]);
  return mended >= 0 ? here : [...here, ...knownTests(kit)];
}

interface KnownWord extends Said {
  how: string;
  period: number;
  withdrawalId: string | null;
}

function knownTests(kit: KeptTicket['kit']): Said[] {
  const { ticket, heard } = kit.evidence as { ticket: { period: number }; heard: KnownWord[] };
  return heard
    .filter(
      ({ how, period, withdrawalId }) =>
        how === 'walk-test' && period === ticket.period && withdrawalId === null,
    )
    .reverse();
}

export function isSamePoint(a: PointToTry, b: PointToTry): boolean {
  return a.trunk === b.trunk && a.node === b.node && a.function === b.function;
}
