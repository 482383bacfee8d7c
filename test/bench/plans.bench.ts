import { withClient } from '#app/database/built-in-roles.js';
import { JobService } from '#app/jobs/job.service.js';

import { sentStatements, type SentStatement } from '../support/count-statements.js';
import { type BenchService, drawBenchSite, FIRM_ID, withService } from './bench-service.js';

const ROWS = 100_000;
const SITES = 100;

/** A sequential scan of a table with fewer rows than these is what the planner should do. */
const FEW = 2000;

interface PlanNode {
  'Node Type': string;
  'Relation Name'?: string;
  'Actual Rows': number;
  'Rows Removed by Filter'?: number;
  'Actual Loops': number;
  Plans?: PlanNode[];
}

/** How the lists of the API are read from tables of 100,000 rows: by which index, or row by row. */
export async function benchPlans(log: (line: string) => void): Promise<void> {
  await withService(async (service) => {
    await service.app.get(JobService).beforeApplicationShutdown();
    const named = await fill(service);
    log(
      `Plans of lists over ${ROWS} tickets, entries, observations, visits and audit entries, in ms:`,
    );
    for (const path of pathsOf(named)) {
      const asked = await queriesOf(service, path);
      let slowest = 0;
      const scans = new Set<string>();
      for (const one of asked) {
        const { ms, plan } = await explain(service, one);
        slowest = Math.max(slowest, ms);
        for (const scan of scansOf(plan)) scans.add(scan);
      }
      const how = scans.size === 0 ? 'by indexes' : `row by row: ${[...scans].join(', ')}`;
      log(`  ${path.padEnd(52)} ${slowest.toFixed(1).padStart(8)}  ${how}`);
    }
  });
}

interface Named {
  siteId: string;
  ticketId: string;
  visitId: string;
  personId: string;
}

function pathsOf({ siteId, ticketId, visitId, personId }: Named): string[] {
  return [
    '/tickets?limit=50',
    '/tickets?open=true&limit=50',
    '/tickets?state=closed&limit=50',
    `/tickets?site=${siteId}&limit=50`,
    `/tickets?site=${siteId}&open=true&limit=50`,
    `/tickets/${ticketId}`,
    `/tickets/${ticketId}/log?limit=50`,
    `/tickets/${ticketId}/observations`,
    `/tickets/${ticketId}/location`,
    '/visits?limit=50',
    `/visits?site=${siteId}&limit=50`,
    `/visits?ticket=${ticketId}&limit=50`,
    `/visits?technician=${personId}&limit=50`,
    '/visits?on=2025-03-04&limit=50',
    '/visits?from=2025-03-04&state=planned&limit=50',
    `/visits/${visitId}/readings?limit=50`,
    '/audit?limit=50',
    `/audit?actor=${personId}&limit=50`,
    `/audit?target=${ticketId}&limit=50`,
    '/audit?outcome=refused&action=POST%20%2Fapi%2Fv1%2Fclients&limit=50',
    '/audit?outcome=refused&limit=50',
    '/audit?from=2025-06-01T00:00:00Z&until=2025-06-02T00:00:00Z&limit=50',
    '/reports/reliability?from=2025-03-01T00:00:00Z&until=2025-03-08T00:00:00Z',
    '/sites?limit=50',
    '/people?limit=50',
  ];
}

/** One ticket in a hundred is open; the newest is the one that is asked for. */
async function fill({ server, api }: BenchService): Promise<Named> {
  const siteIds: string[] = [];
  for (let site = 0; site < SITES; site++) siteIds.push(await drawBenchSite(api, 20));
  const person = { name: 'Ilvo Marsh', work: 'technician' };
  const { id: personId } = await api.post<{ id: string }>('/people', person);
  return withClient(server.ownerUrl, async (client) => {
    await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    const one = async (text: string, values: unknown[] = []) =>
      (await client.query<{ id: string }>(text, values)).rows[0]?.id ?? '';
    await client.query(TICKETS, [siteIds, ROWS]);
    await client.query(ENTRIES);
    await client.query(OBSERVATIONS);
    await client.query(FINDINGS);
    await client.query(VISITS, [personId]);
    await client.query(AUDIT, [personId]);
    await client.query(`UPDATE firms SET last_ticket_number = $1`, [ROWS]);
    await client.query('ANALYZE');
    const ticketId = await one('SELECT id FROM tickets ORDER BY number DESC LIMIT 1');
    const visitId = await one('SELECT id FROM visits ORDER BY id LIMIT 1');
    return { siteId: siteIds[0] ?? '', ticketId, visitId, personId };
  });
}

const TICKETS = `
  INSERT INTO tickets (id, number, site_id, as_built_version, state, opened_by, opened_at, closed_at, period, version)
  SELECT gen_random_uuid(), n, ($1::uuid[])[1 + n % cardinality($1::uuid[])], 1,
    CASE WHEN n % 100 = 0 THEN 'reported' ELSE 'closed' END, 'Mara Quill', at,
    CASE WHEN n % 100 = 0 THEN NULL ELSE at + interval '3 days' END, 0, 2
  FROM generate_series(1, $2::int) AS n,
    LATERAL (SELECT '2020-01-01'::timestamptz + n * interval '30 minutes' AS at) AS opened`;

const ENTRIES = `
  INSERT INTO ticket_entries (id, ticket_id, kind, said_by, said_by_kind, happened_at, recorded_at, details)
  SELECT gen_random_uuid(), id, 'report', 'Mara Quill', 'office', opened_at, opened_at, '{"how": "volunteered"}'
  FROM tickets`;

const FINDINGS = `
  INSERT INTO ticket_entries (id, ticket_id, kind, said_by, said_by_kind, happened_at, recorded_at, details)
  SELECT gen_random_uuid(), id, 'finding', 'Ilvo Marsh', 'technician', opened_at, opened_at, '{}' FROM tickets`;

const OBSERVATIONS = `
  INSERT INTO observations (id, entry_id, ticket_id, trunk, node, function, outcome, said_by, said_by_kind, how,
    observed_at, period)
  SELECT gen_random_uuid(), id, ticket_id, 'T1', 'T1N9', 'bell', 'fails', said_by, said_by_kind, 'volunteered',
    happened_at, 0 FROM ticket_entries`;

const VISITS = `
  WITH planned AS (
    INSERT INTO visits (id, site_id, kind, "on", purpose, upkeep, technician_id, state, version, created_at)
    SELECT id, site_id, 'call-out', opened_at::date + 1, 'Look', false, $1,
      CASE WHEN state = 'closed' THEN 'done' ELSE 'planned' END, 1, opened_at FROM tickets RETURNING id)
  INSERT INTO visit_tickets (visit_id, ticket_id) SELECT id, id FROM planned`;

const AUDIT = `
  INSERT INTO record_entries (id, happened_at, actor_kind, actor_id, role, action, target, outcome, address, request_id)
  SELECT gen_random_uuid(), opened_at, 'token', CASE WHEN number % 50 = 0 THEN $1::uuid ELSE gen_random_uuid() END,
    'technician', CASE WHEN number % 3 = 0 THEN 'POST /api/v1/clients' ELSE 'POST /api/v1/tickets/:ticketId/moves' END,
    jsonb_build_object('ticketId', id, 'siteId', site_id),
    CASE WHEN number % 1000 = 0 THEN 'refused' ELSE 'done' END, '::1', number FROM tickets`;

/** What a request reads of the firm's tables. */
async function queriesOf({ app, api }: BenchService, path: string): Promise<SentStatement[]> {
  const sent = await sentStatements(app, () => api.get(path));
  return sent.filter(
    ({ text }) => /^\s*(SELECT|WITH)/.test(text) && !/find_shown|touch_shown/.test(text),
  );
}

/** As the app's role, within the firm, as the request does it. */
async function explain(
  { server }: BenchService,
  { text, values }: SentStatement,
): Promise<{ ms: number; plan: PlanNode }> {
  return withClient(server.appUrl, async (client) => {
    await client.query('BEGIN READ ONLY');
    await client.query(`SELECT set_config('app.firm_id', $1, true)`, [FIRM_ID]);
    type Explained = { 'QUERY PLAN': [{ 'Execution Time': number; Plan: PlanNode }] };
    const { rows } = await client.query<Explained>(
      `EXPLAIN (ANALYZE, FORMAT JSON) ${text}`,
      values,
    );
    const explained = rows[0]?.['QUERY PLAN'][0];
    if (explained === undefined) throw new Error('EXPLAIN gave no plan');
    return { ms: explained['Execution Time'], plan: explained.Plan };
  });
}

/** The tables that were gone through row by row, with how many rows that were. */
function scansOf(node: PlanNode): string[] {
  const rows = (node['Actual Rows'] + (node['Rows Removed by Filter'] ?? 0)) * node['Actual Loops'];
  const isScan = node['Node Type'] === 'Seq Scan' || (node['Rows Removed by Filter'] ?? 0) > FEW;
  const own =
    isScan && rows > FEW ? [`${node['Relation Name'] ?? node['Node Type']} (${rows})`] : [];
  return [...own, ...(node.Plans ?? []).flatMap(scansOf)];
}
