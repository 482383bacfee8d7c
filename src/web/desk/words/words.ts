import { deskWords } from './loaded.js';

// In the language of the page.
export const AUDIT_WORDS = deskWords().audit;
export const BOOK_VISIT_WORDS = deskWords().bookVisit;
export const CALL_WORDS = deskWords().call;
export const CHART_WORDS = deskWords().charts;
export const CLOSED_DAYS_WORDS = deskWords().closedDays;
export const CONTRACT_WORDS = deskWords().contract;
export const CORRECTION_WORDS = deskWords().correction;
export const DAY_WORDS = deskWords().day;
export const DESK_WORDS = deskWords().desk;
export const EVIDENCE_WORDS = deskWords().evidence;
export const FEED_WORDS = deskWords().feeds;
export const FIRM_WORDS = deskWords().firm;
export const MAP_WORDS = deskWords().map;
export const PLANNING_WORDS = deskWords().planning;
export const PRICES_WORDS = deskWords().prices;
export const PROMISE_WORDS = deskWords().promise;
export const QUARTER_WORDS = deskWords().quarter;
export const RECORD_WORDS = deskWords().record;
export const ROLE_WORDS = deskWords().roles;
export const SITE_WORDS = deskWords().site;
export const TICKET_WORDS = deskWords().ticket;
export const WORK_TIMES_WORDS = deskWords().workTimes;
export const YEAR_REVIEW_WORDS = deskWords().yearReview;
