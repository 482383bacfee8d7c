import { EN_AUDIT } from './en/audit.js';
import { EN_BOOK_VISIT } from './en/book-visit.js';
import { EN_CALL } from './en/call.js';
import { EN_CHARTS } from './en/charts.js';
import { EN_CLOSED_DAYS } from './en/closed-days.js';
import { EN_CONTRACT } from './en/contract.js';
import { EN_DAY } from './en/day.js';
import { EN_DESK } from './en/desk.js';
import { EN_EVIDENCE } from './en/evidence.js';
import { EN_MAP } from './en/map.js';
import { EN_FEEDS } from './en/feeds.js';
import { EN_PLANNING } from './en/planning.js';
import { EN_CORRECTION, EN_PRICES } from './en/prices.js';
import { EN_PROMISE } from './en/promise.js';
import { EN_QUARTER } from './en/quarter.js';
import { EN_RECORD } from './en/record.js';
import { EN_FIRM, EN_ROLES, EN_SITE } from './en/site.js';
import { EN_TICKET } from './en/ticket.js';
import { EN_WORK_TIMES } from './en/work-times.js';
import { EN_YEAR_REVIEW } from './en/year-review.js';

/** Everything that the desk says by itself; the other languages have the same shape. */
export const DESK_IN_EN = {
  audit: EN_AUDIT,
  bookVisit: EN_BOOK_VISIT,
  call: EN_CALL,
  charts: EN_CHARTS,
  closedDays: EN_CLOSED_DAYS,
  contract: EN_CONTRACT,
  correction: EN_CORRECTION,
  day: EN_DAY,
  desk: EN_DESK,
  evidence: EN_EVIDENCE,
  feeds: EN_FEEDS,
  firm: EN_FIRM,
  map: EN_MAP,
  planning: EN_PLANNING,
  prices: EN_PRICES,
  promise: EN_PROMISE,
  quarter: EN_QUARTER,
  record: EN_RECORD,
  roles: EN_ROLES,
  site: EN_SITE,
  ticket: EN_TICKET,
  workTimes: EN_WORK_TIMES,
  yearReview: EN_YEAR_REVIEW,
};

export type DeskWords = typeof DESK_IN_EN;
