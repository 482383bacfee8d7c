import type { Place } from '../drawing/drawn-node.js';
import type { FunctionName } from '../plan/functions.js';
import type { StationMode } from '../plan/modes.js';
import type { LeftOutWords } from './left-out-words.js';
import type { NameNode } from './words.js';

/** What may keep a function from rooms, as it is told. */
export type ToldCause =
  | { kind: 'span' | 'port'; place: Place }
  /** With its group, where the mode is of one: `group-off:ground floor`. */
  | { kind: 'head-end'; mode: string }
  | { kind: 'short' | 'weak-feed'; trunk: string }
  /** The unit of the only room; `node` null: of several rooms, each its own. */
  | { kind: 'own-unit'; node: string | null; mode: StationMode | null }
  | { kind: 'comes-and-goes'; place: Place }
  | { kind: 'nothing' | 'rest' };

export interface OneSaid {
  saidBy: string;
  outcome: 'works' | 'weak' | 'fails';
}

/** The answer in words: what breaks what, what does not fit, and what to do first and why. */
export interface AnswerWords {
  /** As what is missed: "announcements". */
  functions: Readonly<Record<FunctionName, string>>;
  /** Rooms that follow each other along the cable. */
  range: (first: string, last: string) => string;
  /** What is missed, and where. */
  missedIn: (functions: readonly string[], rooms: readonly string[]) => string;
  cause: (cause: ToldCause, nameNode: NameNode) => string;
  /** What is missed, and what may be the cause, likeliest first, adding up to 100 %. */
  trouble: (
    missed: readonly string[],
    causes: readonly { words: string; percent: number }[],
  ) => string;
  alsoBroken: (place: string, chance: number) => string;
  /** Two or more say different things of one function in one room. */
  contradiction: (room: string, name: FunctionName, said: readonly OneSaid[]) => string;
  /** The same for whoever is not to be told who said it. */
  saidBoth: (room: string, name: FunctionName) => string;
  /** What somebody said hardly goes with all the rest. */
  againstTheRest: (room: string, name: FunctionName, said: OneSaid) => string;
  drawing: {
    branch: (rooms: readonly string[], at: string, chance: number) => string;
    end: (rooms: readonly string[], trunk: string, chance: number) => string;
    swapped: (rooms: readonly string[], chance: number) => string;
    countCables: (at: string, asDrawn: number, alternative: number) => string;
    compareNames: (rooms: readonly string[]) => string;
  };
  /** Why something that is known is not gone by. */
  leftOut: LeftOutWords;
  /** How to halve a short. */
  halve: (room: string, trunk: string) => string;
  first: {
    /** Nothing that is gone by was said not to work, and why something is not gone by. */
    leftOut: (why: string) => string;
    /** What to do first, and why, as one or two sentences. */
    byOffice: (check: string, minutes: number) => string;
    atDrawing: (look: string) => string;
    /** Somebody looked there, and it is not laid as drawn. */
    drawnWrong: (rooms: readonly string[]) => string;
    goTo: (place: string, chance: number) => string;
    onSite: (check: string) => string;
    nothing: string;
  };
}
