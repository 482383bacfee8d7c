import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

const TABLES = ['to_learn', 'learned_tickets', 'learned_classes'];

/**
 * What a firm's record teaches is kept by ticket, by site and class, and what changed since is marked by whatever process changes it: a
 * ticket that is closed or taken up again, what was seen on a visit to a closed one, a drawing. A restored database brings its marks along.
 */
export class LearnedInParts1764000000140 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(CREATE);
    // Row-level security binds the owner too.
    await runner.query(`
      ALTER TABLE tickets NO FORCE ROW LEVEL SECURITY;
      ALTER TABLE sites NO FORCE ROW LEVEL SECURITY;
      INSERT INTO to_learn (id, firm_id, site_id, ticket_id)
        SELECT gen_random_uuid(), firm_id, site_id, id FROM tickets WHERE state = 'closed'
        UNION ALL SELECT gen_random_uuid(), firm_id, id, NULL FROM sites WHERE as_built_version > 0;
      ALTER TABLE tickets FORCE ROW LEVEL SECURITY;
      ALTER TABLE sites FORCE ROW LEVEL SECURITY`);
    await keepFirmsApart(runner, TABLES);
    for (const table of TABLES)
      await runner.query(
        `CREATE POLICY reach ON ${table} AS RESTRICTIVE
           USING ((SELECT reaches_all()) OR site_id = ANY (SELECT reached_sites()))`,
      );
    await runner.query(MARK);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TRIGGER marks_to_learn ON tickets;
      DROP TRIGGER marks_to_learn ON sites;
      DROP TRIGGER marks_to_learn ON looks;
      DROP TRIGGER marks_to_learn ON visit_tickets;
      DROP FUNCTION mark_ticket();
      DROP FUNCTION mark_site();
      DROP FUNCTION mark_ticket_of_visit();
      DROP FUNCTION mark_tickets_of_look()`);
    for (const table of TABLES) await runner.query(`DROP TABLE ${table}`);
  }
}

const CREATE = `
  CREATE TABLE to_learn (
    firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
    site_id uuid NOT NULL,
    id uuid NOT NULL,
    ticket_id uuid,
    PRIMARY KEY (firm_id, site_id, id),
    FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id),
    FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id)
  );
  CREATE TABLE learned_tickets (
    firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
    id uuid NOT NULL,
    site_id uuid NOT NULL,
    closed_at timestamptz NOT NULL,
    mended integer NOT NULL,
    repairs jsonb NOT NULL,
    is_found boolean,
    quiet double precision,
    looks jsonb,
    PRIMARY KEY (firm_id, id),
    FOREIGN KEY (firm_id, id) REFERENCES tickets (firm_id, id),
    FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
  );
  CREATE INDEX learned_tickets_firm_id_site_id_idx ON learned_tickets (firm_id, site_id);
  CREATE INDEX learned_tickets_firm_id_closed_at_idx ON learned_tickets (firm_id, closed_at);
  CREATE TABLE learned_classes (
    firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
    class_name text NOT NULL,
    site_id uuid NOT NULL,
    rate_group text NOT NULL,
    exposures jsonb NOT NULL,
    repaired jsonb NOT NULL,
    PRIMARY KEY (firm_id, class_name, site_id),
    FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
  );
  CREATE INDEX learned_classes_firm_id_site_id_idx ON learned_classes (firm_id, site_id)`;

const MARK = `
  CREATE FUNCTION mark_ticket() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    INSERT INTO to_learn (id, firm_id, site_id, ticket_id) VALUES (gen_random_uuid(), NEW.firm_id, NEW.site_id, NEW.id);
    RETURN NULL;
  END $$;
  CREATE TRIGGER marks_to_learn AFTER UPDATE ON tickets FOR EACH ROW
    WHEN ((OLD.state = 'closed') <> (NEW.state = 'closed')) EXECUTE FUNCTION mark_ticket();
  CREATE FUNCTION mark_site() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    INSERT INTO to_learn (id, firm_id, site_id) VALUES (gen_random_uuid(), NEW.firm_id, NEW.id);
    RETURN NULL;
  END $$;
  CREATE TRIGGER marks_to_learn AFTER UPDATE ON sites FOR EACH ROW
    WHEN (OLD.as_built_version <> NEW.as_built_version) EXECUTE FUNCTION mark_site();
  -- Who restores a backup is in no firm's transaction, and brings the marks along.
  CREATE FUNCTION mark_tickets_of_look() RETURNS trigger LANGUAGE plpgsql AS $$
  BEGIN
    INSERT INTO to_learn (id, firm_id, site_id, ticket_id)
      SELECT gen_random_uuid(), t.firm_id, t.site_id, t.id FROM visit_tickets v
      JOIN tickets t ON t.firm_id = v.firm_id AND t.id = v.ticket_id
      WHERE v.firm_id = NEW.firm_id AND v.visit_id = NEW.visit_id AND t.state = 'closed'
        AND coalesce(current_setting('app.firm_id', true), '') <> '';
    RETURN NULL;
  END $$;
  CREATE TRIGGER marks_to_learn AFTER INSERT OR UPDATE ON looks FOR EACH ROW
    WHEN (NEW.visit_id IS NOT NULL) EXECUTE FUNCTION mark_tickets_of_look();
  CREATE FUNCTION mark_ticket_of_visit() RETURNS trigger LANGUAGE plpgsql AS $$
  DECLARE changed visit_tickets := CASE WHEN TG_OP = 'DELETE' THEN OLD ELSE NEW END;
  BEGIN
    INSERT INTO to_learn (id, firm_id, site_id, ticket_id)
      SELECT gen_random_uuid(), firm_id, site_id, id FROM tickets
      WHERE firm_id = changed.firm_id AND id = changed.ticket_id AND state = 'closed'
        AND coalesce(current_setting('app.firm_id', true), '') <> '';
    RETURN NULL;
  END $$;
  CREATE TRIGGER marks_to_learn AFTER INSERT OR DELETE ON visit_tickets FOR EACH ROW
    EXECUTE FUNCTION mark_ticket_of_visit()`;
