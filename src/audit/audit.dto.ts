import { ApiProperty, OmitType } from '@nestjs/swagger';
import { IsIn, IsOptional, IsString, IsUUID, MaxLength } from 'class-validator';
import { IsInstant } from '../shared/is-instant.js';
import { PageQueryDto } from '../shared/page.dto.js';
import type { ActorKind, RequestOutcome } from './audited-request.js';
import { type Role, ROLES } from '../people/roles.js';

export class AuditQueryDto extends PageQueryDto {
  /** Not before this instant. */
  @IsOptional()
  @IsInstant()
  from?: Date;

  /** Before this instant. */
  @IsOptional()
  @IsInstant()
  until?: Date;

  /** Only what this person, or the holder of this pass, did. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  actor?: string;

  /**
   * Only this route.
   * @example "POST /api/v1/tickets/:ticketId/moves"
   */
  @IsOptional()
  @MaxLength(200)
  @IsString()
  action?: string;

  /** Only what was done to this, by its id. */
  @IsOptional()
  @MaxLength(100)
  @IsString()
  target?: string;

  @IsOptional()
  @IsIn(['done', 'refused'])
  outcome?: RequestOutcome;
}

export class AuditExportQueryDto extends OmitType(AuditQueryDto, ['after', 'limit'] as const) {}

/** Somebody did something, or was refused. */
export class AuditEntryDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  happenedAt!: Date;

  @ApiProperty({ enum: ['session', 'token', 'pass', 'signing-in'] })
  actorKind!: ActorKind;

  /** The person, or the pass. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  actorId!: string | null;

  @ApiProperty({ enum: ROLES, nullable: true })
  role!: Role | null;

  /** The route. */
  action!: string;

  /** The ids that the path named, and the id of what was made. */
  @ApiProperty({ type: 'object', additionalProperties: { type: 'string' } })
  target!: Record<string, string>;

  @ApiProperty({ enum: ['done', 'refused'] })
  outcome!: RequestOutcome;

  /** From where. */
  address!: string;
  requestId!: string;
}

export class AuditPageDto {
  /** Newest first. */
  items!: AuditEntryDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
