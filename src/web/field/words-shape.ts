import type { LOOP_CORES } from '#app/locator/index.js';
import type { UnitSetting } from '../parts/lookable-parts.js';
import type { ReadKitInWords, ReadVisit } from '../parts/wire.js';
import type { Measured } from '../parts/typed-number.js';
import type { PhotoWords } from '../parts/photo-list.js';

/** Everything that the field place says by itself, in one language. */
export interface FieldWords {
  places: string;
  jobs: string;
  noDisk: string;
  noDiskWhy: string;
  notReached: string;
  notReachedFirst: string;
  signInFirst: string;
  signIn: string;
  notForClients: string;
  notForClientsWhy: string;
  sessionOver: string;
  noSignal: string;
  /** How old what is shown is. */
  readAgo: (age: string) => string;
  /** Within the last minute. */
  readNow: string;
  justNow: string;
  ago: (age: string) => string;
  waiting: (count: number) => string;
  refused: (count: number) => string;
  ofOthers: (count: number, name: string) => string;
  noJobs: string;
  everyTicket: string;
  everyTicketHint: string;
  nothingOpen: string;
  nothingOpenHere: string;
  someTime: string;
  jobSheet: string;
  jobSheetNeedsSignal: string;
  visitStates: Readonly<Record<ReadVisit['state'], string>>;
  openVisit: string;
  notLocated: string;
  noSuchTicket: (number: string) => string;
  kitNotHere: string;
  cautions: string;
  cautionsRead: string;
  begin: string;
  begun: string;
  /** A call at night, that nobody was sent to. */
  take: string;
  taken: string;
  takenDay: string;
  takenFor: string;
  reportHere: string;
  reportHereHint: string;
  begunReason: string;
  working: string;
  workingOn: string;
  /** What is next by a newer plan than the one on the screen. */
  newerStep: (next: string) => string;
  takeNewer: string;
  noPlan: Record<'contradiction' | 'failed', string>;
  nothingSuspect: string;
  /** The likeliest place, and how likely it is. */
  suspected: (place: string, percent: string) => string;
  at: (where: string) => string;
  minutes: (minutes: number) => string;
  /** What came of a step, on its button. */
  asButton: (seen: string) => string;
  /** What anybody said of the ticket, so many things. */
  toldSoFar: (count: number) => string;
  /** There is nothing to plan a walk on. */
  notDrawn: string;
  oddities: Readonly<Record<ReadKitInWords['said'][number]['oddities'][number], string>>;
  callBack: (phone: string) => string;
  urgent: (reason: string) => string;
  toCarry: string;
  somethingElse: string;
  menu: Readonly<
    Record<
      | 'room'
      | 'part'
      | 'reading'
      | 'off'
      | 'cables'
      | 'found'
      | 'walkTest'
      | 'note'
      | 'photo'
      | 'takeBack'
      | 'end',
      string
    >
  >;
  /** What is taken back, as it waits to be sent. */
  takenBackWords: (what: string) => string;
  takeBackHint: string;
  noMending: string;
  /** What can be set wrongly at a unit. */
  settings: Readonly<Record<UnitSetting, string>>;
  choose: string;
  chooseFirst: string;
  room: string;
  where: string;
  offAfter: string;
  whatTried: string;
  heardWords: (room: string, tried: string, heard: string) => string;
  heardOffWords: (room: string, tried: string, heard: string, off: string) => string;
  whatMeasured: string;
  measured: Readonly<Record<Measured, string>>;
  whichLine: string;
  whichCore: string;
  cores: Readonly<Record<(typeof LOOP_CORES)[number], string>>;
  readingWords: (where: string, value: string) => string;
  cablesHint: string;
  soManyCables: (count: number) => string;
  otherCount: string;
  cablesCounted: (room: string, count: number) => string;
  /** Of two rooms, on their doors. */
  names: {
    asDrawn: string;
    swapped: string;
    seen: (rooms: string, how: string) => string;
  };
  takeBack: string;
  uncertainty: (unit: string) => string;
  uncertaintyHint: string;
  enter: string;
  notKept: string;
  photo: PhotoWords & {
    choose: string;
    caption: string;
    /** The phone cannot read it. */
    unread: string;
    /** It was to be sent, and is no longer there. */
    lost: string;
    waiting: (count: number) => string;
    /** An entry with that caption, which may be empty. */
    words: (caption: string) => string;
  };
  noteText: string;
  foundWords: (where: string) => string;
  mended: (where: string) => string;
  whatWasDone: string;
  howLong: string;
  forGood: string;
  forNow: string;
  comeBackBy: string;
  dayHint: string;
  partsUsed: string;
  oneMore: (part: string) => string;
  oneLess: (part: string) => string;
  anotherPart: string;
  partQuantity: string;
  partNumber: string;
  travelNumber: string;
  uncertaintyNumber: string;
  addPart: string;
  mendedNow: string;
  notMendedNow: string;
  tried: (tried: number, of: number) => string;
  skip: string;
  /** The room that was tried last, should the touch have been the wrong one. */
  onceMoreRoom: (room: string) => string;
  allTried: string;
  someFail: string;
  close: string;
  closed: string;
  /** Not at the service yet. */
  closedHere: string;
  whereFound: string;
  foundWhere: Record<'cabinet' | 'elsewhere' | 'nowhere', string>;
  whyClosed: string;
  goOn: string;
  travelMinutes: string;
  endVisit: string;
  visitEnded: string;
  sign: string;
  signHint: string;
  signName: string;
  signButton: string;
  signedBy: (name: string) => string;
  signed: string;
  remark: string;
  waitingHeading: string;
  waitingHint: string;
  nothingWaits: string;
  waits: string;
  heldUp: string;
  sendNow: string;
  refusedBecause: (reason: string) => string;
  phoneClock: string;
  /** By how much. */
  clockFast: (by: string) => string;
  clockSlow: (by: string) => string;
  sendToOther: string;
  enterAnew: string;
  meantSo: string;
  onceMore: string;
  discard: string;
  discardWhy: string;
  discardNow: string;
  discardedNote: (what: string, why: string) => string;
}

/** As a button begins. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
