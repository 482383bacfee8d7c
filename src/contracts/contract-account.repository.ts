import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import type { AccountRow, KeptRow } from './contract-account.js';
import type { ContractYear } from './contract-year.js';
import { FirmPrices } from './firm-prices.entity.js';

@Injectable()
export class ContractAccountRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Null: nothing was said yet. */
  async findPrices(): Promise<FirmPrices | null> {
    const manager = await this.transaction.manager();
    const [prices] = await manager.find(FirmPrices, { take: 1 });
    return prices ?? null;
  }

  async putPrices(prices: Omit<FirmPrices, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    const { currency, hourMinor, travelHourMinor, parts, version } = prices;
    const rows = await manager.query<object[]>(
      `INSERT INTO firm_prices AS p (currency, hour_minor, travel_hour_minor, parts, version)
       VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT (firm_id) DO UPDATE SET currency = excluded.currency, hour_minor = excluded.hour_minor,
         travel_hour_minor = excluded.travel_hour_minor, parts = excluded.parts, version = excluded.version
       WHERE p.version = excluded.version - 1 RETURNING version`,
      [currency, hourMinor, travelHourMinor, JSON.stringify(parts), version],
    );
    if (rows.length === 0) throw new StaleVersionError(version);
  }

  /** What each covered site took in each of the years, by visits done and parts used there. */
  async listTaken(contractId: string, years: readonly ContractYear[]): Promise<AccountRow[]> {
    const manager = await this.transaction.manager();
    return manager.query<AccountRow[]>(TAKEN, [contractId, ...columnsOf(years)]);
  }

  /** How the tickets that went by the contract stand, by the year in which they were opened. */
  async listKept(contractId: string, years: readonly ContractYear[]): Promise<KeptRow[]> {
    const manager = await this.transaction.manager();
    return manager.query<KeptRow[]>(
      `${YEARS}
       SELECT y.number AS year, p ->> 'promise' AS promise, p ->> 'state' AS state, count(*)::int AS count
       FROM ticket_clocks k JOIN tickets t ON t.id = k.id JOIN sites s ON s.id = t.site_id
         JOIN y ON (t.opened_at AT TIME ZONE s.zone)::date >= y.first AND (t.opened_at AT TIME ZONE s.zone)::date < y.past
         CROSS JOIN jsonb_array_elements(k.kept) p
       WHERE k.contract_id = $1 GROUP BY 1, 2, 3 ORDER BY 1, 2, 3`,
      [contractId, ...columnsOf(years)],
    );
  }
}

function columnsOf(years: readonly ContractYear[]): unknown[] {
  return [
    years.map(({ number }) => number),
    years.map(({ from }) => from),
    years.map(({ until }) => until),
  ];
}

const YEARS = `
  WITH y AS (SELECT * FROM unnest($2::int[], $3::date[], $4::date[]) AS y (number, first, past))`;

const TAKEN = `${YEARS}
  SELECT c.site_id AS "siteId", y.number AS year, v.planned AS "plannedVisits", v.call_outs AS "callOuts",
    v.minutes AS "minutesOnSite", v.travel AS "travelMinutes", v.without_travel AS "visitsWithoutTravel",
    coalesce(p.parts, '[]') AS parts
  FROM contract_sites c JOIN sites s ON s.id = c.site_id CROSS JOIN y
  CROSS JOIN LATERAL (
    SELECT count(*) FILTER (WHERE kind = 'planned')::int AS planned,
      count(*) FILTER (WHERE kind = 'call-out')::int AS call_outs,
      coalesce(round(sum(extract(epoch FROM finished_at - started_at)) / 60), 0)::int AS minutes,
      coalesce(sum(travel_minutes), 0)::int AS travel,
      count(*) FILTER (WHERE travel_minutes IS NULL)::int AS without_travel
    FROM visits WHERE site_id = c.site_id AND state = 'done' AND "on" >= y.first AND "on" < y.past) v
  LEFT JOIN LATERAL (
    SELECT json_agg(json_build_object('name', name, 'quantity', quantity) ORDER BY name) AS parts FROM (
      SELECT part ->> 'name' AS name, sum((part ->> 'quantity')::double precision) AS quantity
      FROM ticket_entries e JOIN tickets t ON t.id = e.ticket_id
        CROSS JOIN jsonb_array_elements(coalesce(e.details -> 'parts', '[]')) part
      WHERE t.site_id = c.site_id AND e.kind = 'mending'
        AND (e.happened_at AT TIME ZONE s.zone)::date >= y.first AND (e.happened_at AT TIME ZONE s.zone)::date < y.past
      GROUP BY 1) used) p ON true
  WHERE c.contract_id = $1 ORDER BY c.site_id, y.number`;
