import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Firm } from '../database/firm.entity.js';
import type { ActorKind, RequestOutcome } from './audited-request.js';
import type { Role } from '../people/roles.js';

/** Somebody did something, or was refused. The database refuses to change or delete it. */
@Entity('record_entries')
@Index(['firmId', 'happenedAt', 'id'])
@Index(['firmId', 'actorId', 'happenedAt', 'id'])
@Index(['firmId', 'action', 'outcome', 'happenedAt', 'id'])
@ForeignKey(() => Firm, ['firmId'], ['firmId'])
export class AuditEntry extends FirmRow {
  @Column('timestamptz')
  happenedAt!: Date;

  @Column('text')
  actorKind!: ActorKind;

  /** The person, or the pass; no name, so that a person can be anonymised. */
  @Column('uuid', { nullable: true })
  actorId!: string | null;

  @Column('text', { nullable: true })
  role!: Role | null;

  /** The route, such as `POST /api/v1/tickets/:ticketId/moves`. */
  @Column('text')
  action!: string;

  /** The ids that the path named, and the id of what was made. */
  @Column('jsonb')
  target!: Record<string, string>;

  @Column('text')
  outcome!: RequestOutcome;

  @Column('text')
  address!: string;

  @Column('text')
  requestId!: string;
}
