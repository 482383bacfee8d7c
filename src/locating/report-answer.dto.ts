import { ApiProperty } from '@nestjs/swagger';
import { TicketDto } from '../tickets/ticket.dto.js';
import { ContradictionDto } from './answer.dto.js';
import { CheckToMakeDto } from './checks.dto.js';

/** A ticket that a report went to. */
export class ReportedTicketDto extends TicketDto {
  /** True: the ticket was open already, and this report joined it. */
  joined!: boolean;

  /** What is worth doing now, at most three, best first, to be read back to whoever reported. */
  officeChecks!: CheckToMakeDto[];

  /** Who says of one room at one time that it is heard and that it is not, with both names. */
  contradictions!: ContradictionDto[];
}

export class ReportAnswerDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  tickets!: ReportedTicketDto[];
}
