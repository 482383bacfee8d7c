import { FR_AUDIT } from './fr/audit.js';
import { FR_BOOK_VISIT } from './fr/book-visit.js';
import { FR_CALL } from './fr/call.js';
import { FR_CHARTS } from './fr/charts.js';
import { FR_CLOSED_DAYS } from './fr/closed-days.js';
import { FR_CONTRACT } from './fr/contract.js';
import { FR_DAY } from './fr/day.js';
import { FR_DESK } from './fr/desk.js';
import { FR_EVIDENCE } from './fr/evidence.js';
import { FR_MAP } from './fr/map.js';
import { FR_FEEDS } from './fr/feeds.js';
import { FR_PLANNING } from './fr/planning.js';
import { FR_CORRECTION, FR_PRICES } from './fr/prices.js';
import { FR_PROMISE } from './fr/promise.js';
import { FR_QUARTER } from './fr/quarter.js';
import { FR_RECORD } from './fr/record.js';
import { FR_FIRM, FR_ROLES, FR_SITE } from './fr/site.js';
import { FR_TICKET } from './fr/ticket.js';
import { FR_WORK_TIMES } from './fr/work-times.js';
import { FR_YEAR_REVIEW } from './fr/year-review.js';
import type { DeskWords } from './words-en.js';

export const DESK_IN_FR: DeskWords = {
  audit: FR_AUDIT,
  bookVisit: FR_BOOK_VISIT,
  call: FR_CALL,
  charts: FR_CHARTS,
  closedDays: FR_CLOSED_DAYS,
  contract: FR_CONTRACT,
  correction: FR_CORRECTION,
  day: FR_DAY,
  desk: FR_DESK,
  evidence: FR_EVIDENCE,
  feeds: FR_FEEDS,
  firm: FR_FIRM,
  map: FR_MAP,
  planning: FR_PLANNING,
  prices: FR_PRICES,
  promise: FR_PROMISE,
  quarter: FR_QUARTER,
  record: FR_RECORD,
  roles: FR_ROLES,
  site: FR_SITE,
  ticket: FR_TICKET,
  workTimes: FR_WORK_TIMES,
  yearReview: FR_YEAR_REVIEW,
};
