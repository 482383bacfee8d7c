import type { PasswordChangedDto } from '#app/access/password.dto.js';
import type {
  PassAnswerDto,
  PassReportAnswerDto,
  PassReportDto,
  PassRoomDto,
  PassSessionDto,
  PassSiteDto,
  PassTicketDto,
  PassTicketSummaryDto,
  VisitToSignDto,
} from '#app/passes/pass.dto.js';
import type { SignedInDto, SignInDto } from '#app/access/session.dto.js';
import type { SignDto } from '#app/passes/signature.dto.js';
import type { QuestionDto } from '#app/tickets/ticket.dto.js';

// The service's own DTOs, as they come over the wire: a field that is renamed there fails the build here.

/** What JSON makes of it: an instant is text. */
type Wire<T> = T extends Date
  ? string
  : T extends readonly (infer Item)[]
    ? Wire<Item>[]
    : T extends object
      ? { [Key in keyof T]: Wire<T[Key]> }
      : T;

export type PasswordChanged = Wire<PasswordChangedDto>;
export type SignedIn = Wire<SignedInDto>;
export type SigningIn = Wire<SignInDto>;
export type OpenedPass = Wire<PassSessionDto>;
export type PassSite = Wire<PassSiteDto>;
export type PassRoom = Wire<PassRoomDto>;
export type PassTicket = Wire<PassTicketDto>;
export type PassTicketSummary = Wire<PassTicketSummaryDto>;
export type PassReport = Wire<PassReportDto>;
export type PassReportAnswer = Wire<PassReportAnswerDto>;
export type PassAnswer = Wire<PassAnswerDto>;
export type VisitToSign = Wire<VisitToSignDto>;
export type AskedQuestion = Wire<QuestionDto>;
export type Signing = Wire<SignDto>;
export type ToldFunction = PassReport['observations'][number]['function'];
