import { FirmsAndPeople1764000000001 } from './0001-firms-and-people.js';
import { Sites1764000000002 } from './0002-sites.js';
import { Tickets1764000000003 } from './0003-tickets.js';
import { Visits1764000000004 } from './0004-visits.js';
import { Predictions1764000000005 } from './0005-predictions.js';
import { Access1764000000010 } from './0010-access.js';
import { Reach1764000000011 } from './0011-reach.js';
import { SitePasses1764000000012 } from './0012-site-passes.js';
import { Guard1764000000013 } from './0013-guard.js';
import { MailAndSecondStep1764000000014 } from './0014-mail-and-second-step.js';
import { Record1764000000015 } from './0015-record.js';
import { KeepRepeatsForAWhile1764000000030 } from './0030-keep-repeats-for-a-while.js';
import { ProvenPoints1764000000031 } from './0031-proven-points.js';
import { SupplyFigures1764000000032 } from './0032-supply-figures.js';
import { TicketReadings1764000000033 } from './0033-ticket-readings.js';
import { ForgetTesters1764000000034 } from './0034-forget-testers.js';
import { Withdrawals1764000000035 } from './0035-withdrawals.js';
import { AuditScope1764000000036 } from './0036-audit-scope.js';
import { ExactLimits1764000000037 } from './0037-exact-limits.js';
import { LinksByKind1764000000038 } from './0038-links-by-kind.js';
import { TechniciansReachAll1764000000039 } from './0039-technicians-reach-all.js';
import { KeptResults1764000000040 } from './0040-kept-results.js';
import { OneReading1764000000045 } from './0045-one-reading.js';
import { IndexesForWhatIsAsked1764000000050 } from './0050-indexes-for-what-is-asked.js';
import { GroupsAndUnitsThatAreOut1764000000055 } from './0055-groups-and-units-that-are-out.js';
import { WhoAsksByName1764000000060 } from './0060-who-asks-by-name.js';
import { AuditByTarget1764000000061 } from './0061-audit-by-target.js';
import { TargetsOfEarlierEntries1764000000062 } from './0062-targets-of-earlier-entries.js';
import { IndexesForLists1764000000063 } from './0063-indexes-for-lists.js';
import { Looks1764000000070 } from './0070-looks.js';
import { DisconnectedBelow1764000000071 } from './0071-disconnected-below.js';
import { WorksNearby1764000000072 } from './0072-works-nearby.js';
import { Contracts1764000000080 } from './0080-contracts.js';
import { TicketClocks1764000000081 } from './0081-ticket-clocks.js';
import { TellChanges1764000000100 } from './0100-tell-changes.js';
import { WorkTimes1764000000090 } from './0090-work-times.js';
import { Dispatch1764000000110 } from './0110-dispatch.js';
import { VisitsHaveHours1764000000082 } from './0082-visits-have-hours.js';
import { Prices1764000000083 } from './0083-prices.js';
import { Notices1764000000126 } from './0126-notices.js';
import { CalendarFeeds1764000000111 } from './0111-calendar-feeds.js';
import { CountedVans1764000001460 } from './0146-counted-vans.js';
import { ReasonsOfWishes1764000000135 } from './0135-reasons-of-wishes.js';
import { LearnedErrors1764000000125 } from './0125-learned-errors.js';
import { SignedOnWhosePhone1764000000130 } from './0130-signed-on-whose-phone.js';
import { DrawnSignatures1764000000132 } from './0132-drawn-signatures.js';
import { Photos1764000000133 } from './0133-photos.js';
import { WithdrawalsOnVisits1764000000129 } from './0129-withdrawals-on-visits.js';
import { HowToReachFirms1764000000136 } from './0136-how-to-reach-firms.js';
import { LanguagesOfPeople1764000000139 } from './0139-languages-of-people.js';
import { LearnedInParts1764000000140 } from './0140-learned-in-parts.js';
import { FirstOpened1764000000141 } from './0141-first-opened.js';
import { LocationClaims1764000000142 } from './0142-location-claims.js';
import { UrgentTickets1764000000150 } from './0150-urgent-tickets.js';
import { QuarterWishes1764000000153 } from './0153-quarter-wishes.js';
import { WithdrawnMendings1764000001600 } from './0160-withdrawn-mendings.js';
import { WhoMadeCalendarFeeds1764000000152 } from './0152-who-made-calendar-feeds.js';
import { Vans1764000000151 } from './0151-vans.js';

/** Every migration, oldest first. Listed, not found by pattern: what runs is what is written here. */
export const migrations = [
  FirmsAndPeople1764000000001,
  Sites1764000000002,
  Tickets1764000000003,
  Visits1764000000004,
  Predictions1764000000005,
  Access1764000000010,
  Reach1764000000011,
  SitePasses1764000000012,
  Guard1764000000013,
  MailAndSecondStep1764000000014,
  Record1764000000015,
  KeepRepeatsForAWhile1764000000030,
  ProvenPoints1764000000031,
  SupplyFigures1764000000032,
  TicketReadings1764000000033,
  ForgetTesters1764000000034,
  Withdrawals1764000000035,
  AuditScope1764000000036,
  ExactLimits1764000000037,
  LinksByKind1764000000038,
  TechniciansReachAll1764000000039,
  KeptResults1764000000040,
  OneReading1764000000045,
  IndexesForWhatIsAsked1764000000050,
  GroupsAndUnitsThatAreOut1764000000055,
  WhoAsksByName1764000000060,
  AuditByTarget1764000000061,
  TargetsOfEarlierEntries1764000000062,
  IndexesForLists1764000000063,
  Looks1764000000070,
  DisconnectedBelow1764000000071,
  WorksNearby1764000000072,
  Contracts1764000000080,
  TicketClocks1764000000081,
  TellChanges1764000000100,
  WorkTimes1764000000090,
  Dispatch1764000000110,
  VisitsHaveHours1764000000082,
  Prices1764000000083,
  CalendarFeeds1764000000111,
  ReasonsOfWishes1764000000135,
  HowToReachFirms1764000000136,
  Notices1764000000126,
  LearnedErrors1764000000125,
  SignedOnWhosePhone1764000000130,
  DrawnSignatures1764000000132,
  Photos1764000000133,
  WithdrawalsOnVisits1764000000129,
  LanguagesOfPeople1764000000139,
  LearnedInParts1764000000140,
  FirstOpened1764000000141,
  LocationClaims1764000000142,
  UrgentTickets1764000000150,
  WhoMadeCalendarFeeds1764000000152,
  Vans1764000000151,
  QuarterWishes1764000000153,
  CountedVans1764000001460,
  WithdrawnMendings1764000001600,
];
