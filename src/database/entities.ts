import { Account } from '../people/account.entity.js';
import { ApiToken } from '../access/api-token.entity.js';
import { Firm } from './firm.entity.js';
import { MailedLink } from '../access/mailed-link.entity.js';
import { Mail } from '../mail/mail.entity.js';
import { Person } from '../people/person.entity.js';
import { PassSession } from '../passes/pass-session.entity.js';
import { AuditEntry } from '../audit/audit-entry.entity.js';
import { AuditTarget } from '../audit/audit-target.entity.js';
import { RecoveryCode } from '../access/recovery-code.entity.js';
import { Session } from '../access/session.entity.js';
import { Signature } from '../passes/signature.entity.js';
import { SitePass } from '../passes/site-pass.entity.js';
import { AsBuiltNode } from '../sites/as-built-node.entity.js';
import { AsBuiltTrunk } from '../sites/as-built-trunk.entity.js';
import { AsBuiltVersion } from '../sites/as-built-version.entity.js';
import { Client } from '../sites/client.entity.js';
import { Site } from '../sites/site.entity.js';
import { Observation } from '../reports/observation.entity.js';
import { FirmLearnedErrors } from '../history/learned-errors.entity.js';
import { LearnedClassAtSite, LearnedTicket, ToLearn } from '../history/learned-parts.entity.js';
import { LearnedRate } from '../history/learned-rate.entity.js';
import { WorkNearby } from '../history/work-nearby.entity.js';
import { ProvenPoint } from '../history/proven-point.entity.js';
import { KeptPrediction } from '../locating/prediction.entity.js';
import { LocationClaim, TicketLocation } from '../locating/ticket-location.entity.js';
import { VisitWithdrawal } from '../reports/visit-withdrawal.entity.js';
import { TicketEntry } from '../tickets/ticket-entry.entity.js';
import { Look } from '../looks/look.entity.js';
import { Reading } from '../readings/reading.entity.js';
import { Ticket } from '../tickets/ticket.entity.js';
import { VisitChange } from '../visits/visit-change.entity.js';
import { VisitMove } from '../visits/visit-move.entity.js';
import { VisitTicket } from '../visits/visit-ticket.entity.js';
import { Visit } from '../visits/visit.entity.js';
import { ClosedCalendar } from '../contracts/closed-calendar.entity.js';
import { ContractSite } from '../contracts/contract-site.entity.js';
import { KeptTicketClock } from '../promises/ticket-clock.entity.js';
import { FirmPrices } from '../contracts/firm-prices.entity.js';
import { Contract } from '../contracts/contract.entity.js';
import { Photo } from '../photos/photo.entity.js';
import { CalendarFeed } from '../calendar-feeds/calendar-feed.entity.js';
import { KeptDayPlan } from '../dispatch/day-plan.entity.js';
import { JobWish } from '../dispatch/job-wish.entity.js';
import { HeldQuarterWish } from '../dispatch/quarter-wish.entity.js';
import { Notice } from '../notices/notice.entity.js';
import { NoticeWish } from '../notices/notice-wish.entity.js';
import { VanStock } from '../vans/van-stock.entity.js';
import { FirmWorkTimes } from '../work-times/firm-work-times.entity.js';
import { PlanningRules } from '../dispatch/planning-rules.entity.js';
import { WorkingTime } from '../dispatch/working-time.entity.js';
import { ReceivedRequest } from './received-request.entity.js';

/** Every entity of the schema. Listed, not found by pattern. */
export const entities = [
  Firm,
  Person,
  Account,
  Session,
  ApiToken,
  Client,
  Site,
  AsBuiltVersion,
  AsBuiltTrunk,
  AsBuiltNode,
  Ticket,
  TicketEntry,
  Observation,
  KeptPrediction,
  LocationClaim,
  TicketLocation,
  FirmLearnedErrors,
  LearnedClassAtSite,
  LearnedRate,
  LearnedTicket,
  ToLearn,
  ProvenPoint,
  WorkNearby,
  Reading,
  Look,
  Visit,
  VisitTicket,
  VisitMove,
  VisitWithdrawal,
  VisitChange,
  Contract,
  ContractSite,
  ClosedCalendar,
  FirmPrices,
  KeptTicketClock,
  CalendarFeed,
  NoticeWish,
  Notice,
  KeptDayPlan,
  JobWish,
  VanStock,
  HeldQuarterWish,
  FirmWorkTimes,
  PlanningRules,
  WorkingTime,
  RecoveryCode,
  MailedLink,
  Mail,
  AuditEntry,
  AuditTarget,
  SitePass,
  PassSession,
  Signature,
  Photo,
  ReceivedRequest,
];
