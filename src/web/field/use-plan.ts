import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { EnteredOnSite } from '#app/locating/entered-on-site.js';
import type { SuspectedOnKit } from '#app/walks/plan-on-kit.js';
import type { WalkAnswer } from '#app/walks/plan-ticket-walk.js';
import { keepIn } from '../parts/kept.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import type { KeptRead } from './field-database.js';
import { endingInWords, type Entering, entriesOf } from './entries-of.js';
import type { KeptTicket } from './kept-work.js';
import { mendingTakenBack, withoutTakenBack } from './mended-here.js';
import type { OutboxEntry } from './outbox.js';
import { type Planned, PlanThread } from './plan-thread.js';
import type { PlanTask } from './plan-worker.js';

export interface PlanStanding {
  trunk: string;
  node: string | null;
}

const kept = keepIn(() => localStorage);
const AT_HEAD_END: PlanStanding = { trunk: '', node: null };

/** Where somebody stood last, over a reload. */
export function standingAt(ticketId: string): PlanStanding {
  return kept.read<PlanStanding>(`standing ${ticketId}`) ?? AT_HEAD_END;
}

export function standAt(ticketId: string, { trunk, node }: PlanStanding): void {
  kept.write(`standing ${ticketId}`, { trunk, node });
}

interface UsedPlan {
  /** Undefined: it is worked out. */
  planned: Planned | undefined;
  /** Where the trouble lies; what it was before, while that is worked out. Undefined: nobody can tell. */
  suspected: SuspectedOnKit | undefined;
}

/**
 * The plan of a ticket with all that was entered here, and, while somebody is on the way, the plans of what may come of it.
 */
export function usePlan(
  { value: { kit, ticket } }: KeptRead<KeptTicket>,
  entries: readonly OutboxEntry[],
  name: string,
): UsedPlan {
  const [, setShown] = useState(0);
  const thread = useRef<PlanThread>(undefined);
  const { trunk, node } = standingAt(ticket.id);
  const task = useMemo(
    () => taskOf(kit, enteredOn(ticket.id, entries), { trunk, node }),
    [kit, ticket.id, entries, trunk, node],
  );
  useEffect(() => {
    const own = new PlanThread(() => setShown((count) => count + 1));
    thread.current = own;
    return () => own.end();
  }, []);
  const planned = thread.current?.find(task.key);
  useEffect(() => {
    const plan = planned !== undefined && 'plan' in planned ? planned.plan : undefined;
    const next = plan === undefined ? [] : nextTasks(task, plan, { ticketId: ticket.id, name });
    thread.current?.ask(task, next);
  }, [task, planned, ticket.id, name]);
  const found = thread.current?.findSuspected(task.key);
  const before = useRef<SuspectedOnKit>(undefined);
  const suspected = found === undefined ? before.current : (found ?? undefined);
  useEffect(() => {
    before.current = suspected;
  }, [suspected]);
  return { planned, suspected };
}

/** The entries of a ticket that its kit does not know, as the planner takes them; what the service found wrong is no evidence. */
export function enteredOn(ticketId: string, entries: readonly OutboxEntry[]): EnteredOnSite[] {
  return withoutTakenBack(entries)
    .filter(({ subject, refusal }) => subject.ticketId === ticketId && refusal?.status !== 422)
    .filter(({ path }) => path.startsWith('/tickets/') && !path.endsWith('/photos'))
    .map(({ id, happenedAt, path, body }) => {
      const isBack = mendingTakenBack({ path }) !== undefined;
      const route = isBack ? 'mending-withdrawals' : path.split('/')[3];
      return { id, happenedAt, route, body } as unknown as EnteredOnSite;
    });
}

/** The same question has the same key: an id and an instant make no other one. */
function taskOf(
  kit: KeptTicket['kit'],
  entered: readonly EnteredOnSite[],
  from: PlanStanding,
): PlanTask {
  const said = entered.map(({ route, body }) => {
    const { saidAt: _saidAt, takenAt: _takenAt, ...rest } = body as Record<string, unknown>;
    return [route, rest];
  });
  const key = JSON.stringify([kit.ticketId, evidenceKey(kit), said, from]);
  return { key, question: { kit, entered, from, language: PAGE_LANGUAGE } };
}

/** Rows are only added: their ids tell kits apart. */
function evidenceKey(kit: KeptTicket['kit']): string {
  const evidence = kit.evidence as Record<'heard' | 'looks' | 'readings' | 'entries', unknown[]>;
  return JSON.stringify([kit.asBuiltVersion, evidence, kit.exposureDays]);
}

/** After each ending of the step: what would be asked then. */
function nextTasks({ question }: PlanTask, { next }: WalkAnswer, entering: Entering): PlanTask[] {
  if (next === null) return [];
  const { kit, entered } = question;
  const likeliest = [...next.endings].sort((a, b) => b.probability - a.probability);
  return likeliest.flatMap(({ records, seen }) => {
    const more = entriesOf(records, endingInWords(next.words, seen), entering);
    if (more.length === 0) return [];
    const happenedAt = new Date().toISOString();
    const added = more.map(({ path, body }, at) => {
      const route = path.split('/')[3];
      return { id: `ahead ${at}`, happenedAt, route, body } as unknown as EnteredOnSite;
    });
    const { trunk, node } = next.where;
    return taskOf(kit as KeptTicket['kit'], [...entered, ...added], { trunk, node });
  });
}
