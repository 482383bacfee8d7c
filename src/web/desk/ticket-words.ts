import type { CauseOf, NameStation } from './cause-of.js';
import type { ReadLogEntry } from '../parts/wire.js';
import { FUNCTION_LABELS, percent } from '../parts/drawing/drawing-words.js';
import type { FunctionName } from '#app/locator/index.js';

export const TICKET_WORDS = {
  where: 'Where it is',
  refused: 'Where it is cannot be worked out from what was told.',
  why: 'Why we think so',
  whyNot: (place: string) => `Why is ${place} not heard? The causes add up to 100 %.`,
  which: 'Of which room',
  contradicting: 'What was told and does not fit',
  drawingDoubt: 'What was told goes badly with the drawing: have the drawing looked at first.',
  checks: 'Worth checking',
  byOffice: 'By the office, now',
  byTechnician: 'By the technician, on site',
  cautions: 'Before anybody opens anything',
  minutes: (minutes: number) => `${Math.max(1, Math.round(minutes))} min`,
  log: 'What happened',
  people: 'Who goes',
  nobody: 'Nobody is sent yet.',
  readings: 'Readings',
  send: 'Send somebody',
  sendBy: 'Who goes',
  sendNobody: 'Nobody named yet',
  sendOn: 'On which day',
  sendWhy: 'Why somebody must go, if the office was not asked first (else leave it empty)',
  sendButton: 'Send',
  join: 'Join to another ticket',
  joinWhich: 'The ticket of the same fault',
  joinButton: 'Join them',
  joinNone: 'No other ticket of this site is open.',
  split: 'Split',
  splitHint: 'What belongs to another fault gets a ticket of its own.',
  splitButton: 'Give these a ticket of their own',
  splitNone: 'Please choose what is to be split off.',
  suppose: 'What if?',
  supposeHint:
    'Choose a room on the drawing and say what would be heard there. Nothing is recorded.',
  supposed: 'Supposed only: nothing was recorded.',
  unchanged: 'Nothing moves by a whole percent.',
  end: 'Stop supposing',
  askFor: 'Ask for this check',
  asked: 'Asked for in the log.',
  close: 'Close',
  said: 'What was said here',
  nothingSaid: 'Nothing was said here.',
  parts: 'Unit',
  enter: 'Somebody tells of this room',
  enterBy: 'Who says so',
  enterButton: (outcome: string) => `Enter: ${outcome}`,
  loading: 'Working it out…',
} as const;

export function pointInWords(name: string, tried: string): string {
  return `${FUNCTION_LABELS[tried as FunctionName]} in ${name}`;
}

/** A cause as it is read: "the incoming terminals at Room 13". */
export function causeInWords(cause: CauseOf, nameOf: NameStation): string {
  const { kind, mode, trunk = '', node } = cause;
  switch (kind) {
    case 'span':
      return spanInWords(cause, nameOf);
    case 'head-end':
      return mode === undefined ? 'the head-end' : `the head-end (${plain(mode)})`;
    case 'port':
      return `the output of trunk ${trunk} at the head-end`;
    case 'short':
      return `a short somewhere on trunk ${trunk}`;
    case 'station':
      return `the unit in ${nameOf(trunk, node)} (${plain(mode ?? '')})`;
    case 'weak-feed':
      return `a bad joint in the supply of trunk ${trunk}`;
    case 'nothing':
      return 'nothing: it works, and the report is mistaken';
    case 'rest':
      return 'anything else';
  }
}

function spanInWords({ trunk, from, to, component }: CauseOf, nameOf: NameStation): string {
  const above = from == null ? 'the head-end' : nameOf(trunk, from);
  const below = nameOf(trunk, to);
  switch (component) {
    case 'junction-out':
      return `the outgoing terminals at ${above}`;
    case 'junction-in':
      return `the incoming terminals at ${below}`;
    case 'cable':
    case undefined:
      return `the cable from ${above} to ${below}`;
  }
}

function plain(name: string): string {
  return name.replaceAll('-', ' ');
}

const KINDS: Readonly<Partial<Record<ReadLogEntry['kind'], string>>> = {
  report: 'reported',
  note: 'noted',
  answer: 'answered',
  reading: 'read off a meter',
  look: 'looked at a part',
  withdrawal: 'took something back',
  finding: 'found',
  mending: 'mended',
  'walk-test': 'tried the rooms',
  move: 'moved the ticket',
  'merged-in': 'joined another ticket to this one',
  'merged-away': 'joined this ticket to another',
  'split-off': 'split some reports off',
  'split-from': 'split from another ticket',
};

/** An entry of the log: who did what. `learned`: what it brought. */
export function entryInWords({ kind, saidBy, details }: ReadLogEntry, learned: string): string {
  const to = details.to === undefined ? '' : ` to ${plain(details.to)}`;
  const answer =
    details.answer === undefined ? '' : `: ${details.question ?? ''} ${details.answer}`;
  const what = details.what === undefined ? '' : `: ${details.what}`;
  const more = [learned, details.note, details.reason].filter(Boolean).join('; ');
  return `${saidBy} ${KINDS[kind] ?? plain(kind)}${to}${answer}${what}${more === '' ? '' : `. ${more}`}`;
}

/** "was 42 %, would be 71 %". */
export function movedInWords(before: number, after: number): string {
  return `${percent(before) || '0 %'} → ${percent(after) || '0 %'}`;
}
