import { ES_AUDIT } from './es/audit.js';
import { ES_BOOK_VISIT } from './es/book-visit.js';
import { ES_CALL } from './es/call.js';
import { ES_CHARTS } from './es/charts.js';
import { ES_CLOSED_DAYS } from './es/closed-days.js';
import { ES_CONTRACT } from './es/contract.js';
import { ES_DAY } from './es/day.js';
import { ES_DESK } from './es/desk.js';
import { ES_EVIDENCE } from './es/evidence.js';
import { ES_MAP } from './es/map.js';
import { ES_FEEDS } from './es/feeds.js';
import { ES_PLANNING } from './es/planning.js';
import { ES_CORRECTION, ES_PRICES } from './es/prices.js';
import { ES_PROMISE } from './es/promise.js';
import { ES_QUARTER } from './es/quarter.js';
import { ES_RECORD } from './es/record.js';
import { ES_FIRM, ES_ROLES, ES_SITE } from './es/site.js';
import { ES_TICKET } from './es/ticket.js';
import { ES_WORK_TIMES } from './es/work-times.js';
import { ES_YEAR_REVIEW } from './es/year-review.js';
import type { DeskWords } from './words-en.js';

export const DESK_IN_ES: DeskWords = {
  audit: ES_AUDIT,
  bookVisit: ES_BOOK_VISIT,
  call: ES_CALL,
  charts: ES_CHARTS,
  closedDays: ES_CLOSED_DAYS,
  contract: ES_CONTRACT,
  correction: ES_CORRECTION,
  day: ES_DAY,
  desk: ES_DESK,
  evidence: ES_EVIDENCE,
  feeds: ES_FEEDS,
  firm: ES_FIRM,
  map: ES_MAP,
  planning: ES_PLANNING,
  prices: ES_PRICES,
  promise: ES_PROMISE,
  quarter: ES_QUARTER,
  record: ES_RECORD,
  roles: ES_ROLES,
  site: ES_SITE,
  ticket: ES_TICKET,
  workTimes: ES_WORK_TIMES,
  yearReview: ES_YEAR_REVIEW,
};
