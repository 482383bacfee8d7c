import type { EnteredOnSite } from '#app/locating/entered-on-site.js';
import type { WalkRecord } from '#app/walks/walk-records.js';
import type { ToEnter } from './outbox-keeper.js';

/** Who enters it, about which ticket. */
export interface Entering {
  ticketId: string;
  name: string;
  /** What was heard, in words, where a look is entered with it. */
  heardInWords?: (heard: readonly HeardRecord[]) => string;
}

export type HeardRecord = Omit<Extract<WalkRecord, { kind: 'heard' }>, 'kind'>;

type Of<Kind extends WalkRecord['kind']> = Extract<WalkRecord, { kind: Kind }>;

const isOf =
  <Kind extends WalkRecord['kind']>(kind: Kind) =>
  (record: WalkRecord): record is Of<Kind> =>
    record.kind === kind;

/** What one touch enters: what was heard, what was looked at, and how a step ended. What was found is mended first. */
export function entriesOf(
  records: readonly WalkRecord[],
  words: string,
  { ticketId, name, heardInWords }: Entering,
): ToEnter[] {
  const saidBy = { name, kind: 'technician' } as const;
  const at = `/tickets/${ticketId}`;
  const observations = records.filter(isOf('heard')).map(({ kind: _kind, ...heard }) => heard);
  const looks = records.filter(isOf('look')).map(({ kind: _kind, ...look }) => look);
  const steps = records.filter(isOf('step')).map(({ kind: _kind, ...step }) => step);
  // The planner of the phone takes the same bodies: it is the compiler that holds them together.
  const looked: BodyOf<'looks'> = { saidBy, looks };
  const heard: BodyOf<'reports'> = { saidBy, how: 'gone-through', observations };
  const ended = (step: Omit<Of<'step'>, 'kind'>): BodyOf<'notes'> => ({
    saidBy,
    note: words,
    step,
  });
  return [
    ...some(looks, { path: `${at}/looks`, body: { ...looked }, words }),
    ...some(observations, {
      path: `${at}/reports`,
      body: { ...heard },
      words: looks.length > 0 ? (heardInWords?.(observations) ?? words) : words,
    }),
    ...steps.map((step) => ({ path: `${at}/notes`, body: { ...ended(step) }, words })),
  ];
}

type BodyOf<Route extends EnteredOnSite['route']> = Extract<
  EnteredOnSite,
  { route: Route }
>['body'];

/** What was done, and what came of it. */
export function endingInWords(step: string, seen: string): string {
  return `${step}: ${seen}`;
}

function some(list: readonly unknown[], entry: ToEnter): ToEnter[] {
  return list.length === 0 ? [] : [entry];
}
