import { ApiProperty } from '@nestjs/swagger';
import { IsOptional, IsString, MaxLength } from 'class-validator';

export class ChangeQueryDto {
  /** `last` of the answer before; left out: nothing was heard yet. */
  @IsOptional()
  @MaxLength(100)
  @IsString()
  after?: string;
}

export class ChangeDto {
  @ApiProperty({ enum: ['ticket', 'location', 'visit', 'site'] })
  kind!: 'ticket' | 'location' | 'visit' | 'site';

  /** Of the ticket, visit or site. */
  @ApiProperty({ format: 'uuid' })
  id!: string;
}

/** What changed; who may see it reads it. */
export class ToldChangesDto {
  items!: ChangeDto[];

  /** By which to go on. */
  last!: string;

  /** False: something may have been missed, and all that is shown is to be read anew. */
  isWhole!: boolean;
}
