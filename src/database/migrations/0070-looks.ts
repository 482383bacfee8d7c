import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Tables that the copy reads or a new foreign key looks at, of whatever firm. */
const READ = ['ticket_entries', 'tickets', 'visits'];

/** What somebody saw at a part, about a ticket or on a visit. What was answered about parts before becomes looks as well. */
export class Looks1764000000070 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const table of READ)
      await runner.query(`ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`);
    await runner.query(CREATE);
    await runner.query(ANSWERED);
    await runner.query(GUARD);
    await keepFirmsApart(runner, ['looks']);
    await runner.query(REACH);
    for (const table of READ) await runner.query(`ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE looks');
  }
}

const CREATE = `
  CREATE TABLE looks (
    firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
    id uuid NOT NULL,
    ticket_id uuid,
    visit_id uuid,
    entry_id uuid,
    place jsonb NOT NULL,
    part text NOT NULL,
    group_name text,
    seen text NOT NULL,
    said_by text NOT NULL,
    said_by_kind text NOT NULL,
    looked_at timestamptz NOT NULL,
    recorded_at timestamptz NOT NULL,
    period integer,
    note text,
    withdrawal_id uuid,
    PRIMARY KEY (firm_id, id),
    CHECK (num_nonnulls(ticket_id, visit_id) = 1)
  )`;

/** The names of questions stay as they are here, whatever becomes of them elsewhere. */
const ANSWERED = `
  INSERT INTO looks (firm_id, id, ticket_id, entry_id, place, part, seen, said_by, said_by_kind, looked_at, recorded_at,
      period, note)
    SELECT e.firm_id, e.id, e.ticket_id, e.id,
      CASE WHEN settings.part IS NOT NULL THEN '{"kind": "head-end"}'::jsonb
        ELSE jsonb_build_object('kind', 'station', 'trunk', split_part(knob.point, '/', 1),
          'node', substr(knob.point, strpos(knob.point, '/') + 1)) END,
      coalesce(settings.part, 'volume-down'),
      CASE e.details ->> 'answer' WHEN 'yes' THEN 'sound' ELSE 'faulty' END,
      e.said_by, coalesce(e.said_by_kind, 'office'), e.happened_at, e.recorded_at,
      (SELECT count(*) FROM ticket_entries m WHERE m.firm_id = e.firm_id AND m.ticket_id = e.ticket_id
        AND m.kind = 'mending' AND (m.recorded_at, m.id) < (e.recorded_at, e.id)),
      e.details ->> 'note'
    FROM ticket_entries e
    LEFT JOIN (VALUES ('head-end-on', 'power'), ('rooms-selected', 'selector'), ('ordinary-day', 'bell-source'),
      ('microphone-on', 'microphone'), ('music-source-on', 'line-input')) AS settings (question, part)
      ON settings.question = e.details ->> 'question'
    CROSS JOIN LATERAL (SELECT substr(e.details ->> 'question', length('volume-up:') + 1)
      WHERE e.details ->> 'question' LIKE 'volume-up:%/%'
      UNION ALL SELECT NULL WHERE settings.part IS NOT NULL) AS knob (point)
    WHERE e.kind = 'answer' AND e.details ->> 'answer' IN ('yes', 'no')`;

/** A row only moves between tickets, and is withdrawn once. */
const GUARD = `
  ALTER TABLE looks
    ADD FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id),
    ADD FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id),
    ADD FOREIGN KEY (firm_id, entry_id) REFERENCES ticket_entries (firm_id, id),
    ADD FOREIGN KEY (firm_id, withdrawal_id) REFERENCES ticket_entries (firm_id, id);
  CREATE INDEX ON looks (firm_id, ticket_id);
  CREATE INDEX ON looks (firm_id, visit_id, looked_at, id);
  CREATE TRIGGER only_grows BEFORE DELETE ON looks
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER only_moves BEFORE UPDATE ON looks
    FOR EACH ROW WHEN (
      to_jsonb(OLD) - '{ticket_id,withdrawal_id}'::text[]
        IS DISTINCT FROM to_jsonb(NEW) - '{ticket_id,withdrawal_id}'::text[]
      OR OLD.withdrawal_id IS NOT NULL AND NEW.withdrawal_id IS DISTINCT FROM OLD.withdrawal_id)
    EXECUTE FUNCTION refuse_change()`;

const REACH = `
  CREATE POLICY reach ON looks AS RESTRICTIVE
    USING ((SELECT reaches_all()) OR ticket_id IN (SELECT id FROM tickets)
      OR visit_id IN (SELECT id FROM visits))`;
