import type { PublicAddressDto } from '#app/access/public-address.dto.js';
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
import type { ApiTokenDto, NewApiTokenDto } from '#app/access/api-token.dto.js';
import type { NewSecondStepDto, RecoveryCodesDto } from '#app/access/second-step.dto.js';
import type { SessionDto, SignedInDto, SignInDto } from '#app/access/session.dto.js';
import type { AuditEntryDto } from '#app/audit/audit.dto.js';
import type { MailDto } from '#app/mail/mail.dto.js';
import type { NewNoticeWishDto, NoticeDto, NoticeWishDto } from '#app/notices/notice-wish.dto.js';
import type { NewSitePassDto, SitePassDto } from '#app/passes/site-pass.dto.js';
import type { FirmDto } from '#app/people/firm.dto.js';
import type { AccountDto } from '#app/people/account.dto.js';
import type { AsBuiltSheetChangeDto } from '#app/sheets/as-built-sheet.dto.js';
import type { ContractAccountDto, FirmPricesDto } from '#app/contracts/contract-account.dto.js';
import type { CalendarFeedDto, NewCalendarFeedDto } from '#app/calendar-feeds/calendar-feed.dto.js';
import type { ClosedCalendarDto, ReadDaysDto } from '#app/contracts/closed-calendar.dto.js';
import type { ContractVisitsDto } from '#app/contracts/contract-visit.dto.js';
import type { ContractDto, CreateContractDto } from '#app/contracts/contract.dto.js';
import type { SiteCoverDto } from '#app/contracts/site-cover.dto.js';
import type { ContractClocksDto, TicketClockDto } from '#app/promises/ticket-promise.dto.js';
import type { DayPlanDto } from '#app/dispatch/day-plan.dto.js';
import type { JobWishDto } from '#app/dispatch/job-wish.dto.js';
import type { PlanningRulesDto } from '#app/dispatch/planning-rules.dto.js';
import type {
  ChosenVisitDto,
  OwedQuarterDto,
  QuarterPlanDto,
  KeptQuarterWishDto,
  PutQuarterWishDto,
} from '#app/dispatch/quarter-plan.dto.js';
import type { WorkingTimeDto } from '#app/dispatch/working-time.dto.js';
import type { VanDto } from '#app/vans/van.dto.js';
import type { DeskDto } from '#app/desk/desk.dto.js';
import type { JobSheetDto } from '#app/job-sheets/job-sheet.dto.js';
import type { KitInWordsDto } from '#app/walks/kit-in-words.dto.js';
import type { KitDto } from '#app/walks/kit.dto.js';
import type { LocationDto } from '#app/locating/location.dto.js';
import type { FoundAtSiteListDto } from '#app/history/found-at-site.dto.js';
import type { LookDto } from '#app/looks/look.dto.js';
import type { ReadingDto } from '#app/readings/reading.dto.js';
import type { ReportAnswerDto } from '#app/locating/report-answer.dto.js';
import type { PersonDto } from '#app/people/person.dto.js';
import type { ObservationDto } from '#app/reports/observation.dto.js';
import type { ReportDto } from '#app/reports/report.dto.js';
import type { AsBuiltChangeDto, AsBuiltComparisonDto } from '#app/sites/as-built-comparison.dto.js';
import type { AsBuiltDto, AsBuiltVersionDto } from '#app/sites/as-built.dto.js';
import type { ClientDto } from '#app/sites/client.dto.js';
import type { SiteDto } from '#app/sites/site.dto.js';
import type { TicketEntryDto } from '#app/tickets/ticket-entry.dto.js';
import type { ListedTicketDto, QuestionDto, TicketDto } from '#app/tickets/ticket.dto.js';
import type { VisitChecklistDto } from '#app/visits/visit-checklist.dto.js';
import type { ReviewDto } from '#app/review/review.dto.js';
import type { ShouldCostDto } from '#app/review/should-cost.dto.js';
import type { WorkTimesDto } from '#app/work-times/work-times.dto.js';
import type { VisitDto } from '#app/visits/visit.dto.js';
import type { VisitMoveListDto } from '#app/visits/visit-move.dto.js';
import type { PhotoDto } from '#app/photos/photo.dto.js';
import type { SignDto } from '#app/passes/signature.dto.js';

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
export type OwnSession = Wire<SessionDto>;
export type OwnToken = Wire<ApiTokenDto>;
export type NewOwnToken = Wire<NewApiTokenDto>;
export type NewSecondStep = Wire<NewSecondStepDto>;
export type RecoveryCodes = Wire<RecoveryCodesDto>;
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
export type Desk = Wire<DeskDto>;
export type DeskTicket = Desk['items'][number];
export type ReadKit = Wire<KitDto>;
export type ReadKitInWords = Wire<KitInWordsDto>;
export type ReadTicketLocation = Wire<LocationDto>;
export type Reported = Wire<ReportAnswerDto>;
export type Reporting = Wire<ReportDto>;
export type ReadPerson = Wire<PersonDto>;
export type ToldThing = Wire<ObservationDto>;
export type ReadReading = Wire<ReadingDto>;
export type ReadLook = Wire<LookDto>;
export type ReadDrawnRecord = Wire<AsBuiltDto>;
export type RecordChange = Wire<AsBuiltChangeDto>;
export type RecordComparison = Wire<AsBuiltComparisonDto>;
export type RecordVersion = Wire<AsBuiltVersionDto>;
export type FoundAtSiteList = Wire<FoundAtSiteListDto>;
export type ReadClient = Wire<ClientDto>;
export type ReadSite = Wire<SiteDto>;
export type ReadLogEntry = Wire<TicketEntryDto>;
export type ReadListedTicket = Wire<ListedTicketDto>;
export type ShownTicket = Wire<TicketDto>;
export type ReadVisit = Wire<VisitDto>;
export type ReadVisitLog = Wire<VisitMoveListDto>;
export type ReadJobSheet = Wire<JobSheetDto>;
export type ReadVisitChecklist = Wire<VisitChecklistDto>;
export type ReadPhoto = Wire<PhotoDto>;
export type ReadFirm = Wire<FirmDto>;
export type ReadPublicAddress = Wire<PublicAddressDto>;
export type ReadAccount = Wire<AccountDto>;
export type ReadAuditEntry = Wire<AuditEntryDto>;
export type ReadMail = Wire<MailDto>;
export type ReadSitePass = Wire<SitePassDto>;
export type NewSitePass = Wire<NewSitePassDto>;
export type SheetChange = Wire<AsBuiltSheetChangeDto>;
export type ReadContract = Wire<ContractDto>;
export type MakingContract = Wire<CreateContractDto>;
export type ReadContractVisits = Wire<ContractVisitsDto>;
export type ReadContractAccount = Wire<ContractAccountDto>;
export type ReadPrices = Wire<FirmPricesDto>;
export type ReadFeed = Wire<CalendarFeedDto>;
export type NewFeed = Wire<NewCalendarFeedDto>;
export type ReadClosedDays = Wire<ClosedCalendarDto>;
export type DaysOfText = Wire<ReadDaysDto>;
export type ReadClosedCalendar = Pick<Wire<ClosedCalendarDto>, 'id' | 'name'>;
export type ReadSiteCover = Wire<SiteCoverDto>;
export type ReadTicketClock = Wire<TicketClockDto>;
export type ReadContractClocks = Wire<ContractClocksDto>;
export type ReadReview = Wire<ReviewDto>;
export type ReadShouldCost = Wire<ShouldCostDto>;
export type ReadDayPlan = Wire<DayPlanDto>;
export type ReadOwedQuarter = Wire<OwedQuarterDto>;
export type OwedQuarterVisit = ReadOwedQuarter['visits'][number];
export type ReadQuarterPlan = Wire<QuarterPlanDto>;
export type PlacedQuarterVisit = ReadQuarterPlan['placed'][number];
export type LeftQuarterVisit = ReadQuarterPlan['left'][number];
export type PutQuarterWish = Wire<PutQuarterWishDto>;
export type KeptQuarterWish = Wire<KeptQuarterWishDto>;
export type ChosenQuarterVisit = Wire<ChosenVisitDto>;
export type ReadJobWish = Wire<JobWishDto>;
export type ReadPlanningRules = Wire<PlanningRulesDto>;
export type ReadWorkingTime = Wire<WorkingTimeDto>;
export type ReadVan = Wire<VanDto>;
export type ReadNoticeWish = Wire<NoticeWishDto>;
export type NewNoticeWish = Wire<NewNoticeWishDto>;
export type ToldNotice = Wire<NoticeDto>;
export type ReadWorkTimes = Wire<WorkTimesDto>;
/** One page of a list. */
export interface Listed<Item> {
  items: Item[];
  next: string | null;
}
export type ToldFunction = PassReport['observations'][number]['function'];
