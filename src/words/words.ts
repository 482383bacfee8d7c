import type { NodeKind, Place } from '../drawing/drawn-node.js';
import type {
  CheckAction,
  ComponentName,
  GroupSetting,
  JointCandidateAnswer,
  SiteSetting,
  Stretch,
} from '../locator/index.js';
import type { FunctionName } from '../plan/functions.js';
import type { AnswerWords } from './answer-words.js';
import type { Formats } from './formats.js';
import type { Language } from './languages.js';

/** Names a node as people do: by its room where it has one. */
export type NameNode = (trunk: string, node: string) => string;

/** What was heard at a station, for drawing it. */
export type Mark = 'heard' | 'weak' | 'silent' | 'not checked' | 'contradicted';

type InOneRoom = Readonly<Record<FunctionName, (room: string) => string>>;

/** A question that the office answers by yes, no or unknown, and what to do where the answer is no. */
export interface QuestionWords {
  text: string;
  advice: string;
}

/**
 * Everything that is said of a site and its troubles, in one language. Sentences that begin small and end without a stop are
 * meant to go on or to stand in a list.
 */
export interface Words {
  language: Language;
  formats: Formats;
  headEnd: string;
  /** A node without a room's name. */
  unnamed: Readonly<Record<NodeKind, (code: string) => string>>;
  place: (place: Place, nameNode: NameNode) => string;
  /** What of a place can fail. */
  component: (component: ComponentName, place: Place, nameNode: NameNode) => string;
  stretch: (
    stretch: Pick<Stretch, 'trunk' | 'from' | 'to' | 'spans'>,
    nameNode: NameNode,
  ) => string;
  /** What is meant, with its chance. */
  withChance: (words: string, chance: number) => string;
  comesAndGoes: (words: string) => string;
  joint: (joint: JointCandidateAnswer, nameNode: NameNode) => string;
  /** What to do to find out more. */
  check: (action: CheckAction, nameNode: NameNode) => string;
  /** The same question as the check of a setting asks, for the list of what to ask first. */
  settingQuestion: Readonly<Record<SiteSetting, QuestionWords>>;
  groupQuestion: (setting: GroupSetting) => QuestionWords;
  volumeQuestion: (room: string) => QuestionWords;
  /** Something was reported that cannot be, as the record has it. */
  setAside: (room: string, what: { function: FunctionName; isOut: boolean }) => string;
  answer: AnswerWords;
  walk: WalkWords;
  drawing: DrawingWords;
  /** Somebody said something of one room. */
  said: (told: {
    room: string;
    function: FunctionName;
    outcome: 'works' | 'weak' | 'fails';
    saidBy: string;
  }) => string;
}

/** What a technician does on site, and what is seen then. */
export interface WalkWords {
  tryFunction: InOneRoom;
  /** What may be seen of a lamp, and what may be heard: works, weak, fails. */
  lampSeen: readonly [string, string, string];
  heard: readonly [string, string, string];
  measureOutput: (trunk: string) => string;
  measureArrival: (room: string) => string;
  allThere: string;
  somethingMissing: string;
  disconnect: (room: string) => string;
  /** The cable that comes into a room. */
  liftOff: (room: string) => string;
  comesBack: string;
  doesNotComeBack: string;
  /** What is opened, to see to a fault there. */
  open: (component: ComponentName, place: Place, nameNode: NameNode) => string;
  /** What looked sound, and is made anew all the same. */
  remake: (component: ComponentName, place: Place, nameNode: NameNode) => string;
  allWorks: string;
  stillFails: string;
  atFault: string;
  sound: string;
  soundAnd: (seen: string) => string;
  from: (where: string, minutes: number) => string;
  nothingSuspect: string;
  step: (label: string, minutes: number) => string;
  /** What is seen, how likely that is, and what follows. */
  ending: (seen: string, chance: string, next: string) => string;
  otherwise: (chance: string, next: string) => string;
  mendIt: string;
  mendItAndIf: string;
  everythingWorks: string;
  askAgain: string;
  cautions: readonly string[];
  emergencyCaution: string;
}

/** A trunk drawn with letters. */
export interface DrawingWords {
  title: (trunk: string) => string;
  marks: Readonly<Record<Mark, string>>;
  station: string;
  junctionBox: string;
  lookHere: string;
  metres: (metres: number) => string;
}
