import { HI_AUDIT } from './hi/audit.js';
import { HI_BOOK_VISIT } from './hi/book-visit.js';
import { HI_CALL } from './hi/call.js';
import { HI_CHARTS } from './hi/charts.js';
import { HI_CLOSED_DAYS } from './hi/closed-days.js';
import { HI_CONTRACT } from './hi/contract.js';
import { HI_DAY } from './hi/day.js';
import { HI_DESK } from './hi/desk.js';
import { HI_EVIDENCE } from './hi/evidence.js';
import { HI_MAP } from './hi/map.js';
import { HI_FEEDS } from './hi/feeds.js';
import { HI_PLANNING } from './hi/planning.js';
import { HI_CORRECTION, HI_PRICES } from './hi/prices.js';
import { HI_PROMISE } from './hi/promise.js';
import { HI_QUARTER } from './hi/quarter.js';
import { HI_RECORD } from './hi/record.js';
import { HI_FIRM, HI_ROLES, HI_SITE } from './hi/site.js';
import { HI_TICKET } from './hi/ticket.js';
import { HI_WORK_TIMES } from './hi/work-times.js';
import { HI_YEAR_REVIEW } from './hi/year-review.js';
import type { DeskWords } from './words-en.js';

export const DESK_IN_HI: DeskWords = {
  audit: HI_AUDIT,
  bookVisit: HI_BOOK_VISIT,
  call: HI_CALL,
  charts: HI_CHARTS,
  closedDays: HI_CLOSED_DAYS,
  contract: HI_CONTRACT,
  correction: HI_CORRECTION,
  day: HI_DAY,
  desk: HI_DESK,
  evidence: HI_EVIDENCE,
  feeds: HI_FEEDS,
  firm: HI_FIRM,
  map: HI_MAP,
  planning: HI_PLANNING,
  prices: HI_PRICES,
  promise: HI_PROMISE,
  quarter: HI_QUARTER,
  record: HI_RECORD,
  roles: HI_ROLES,
  site: HI_SITE,
  ticket: HI_TICKET,
  workTimes: HI_WORK_TIMES,
  yearReview: HI_YEAR_REVIEW,
};
