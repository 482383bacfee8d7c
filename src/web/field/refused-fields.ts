import { PAGE_WORDS } from '../parts/language.js';
import { FIELD_WORDS } from './field-words.js';

const { photo } = FIELD_WORDS;

/** What of an entry is called what where it is entered, by JSON pointer; what is within counts as it. */
const LABELS: readonly (readonly [pointer: string, label: string])[] = [
  ['/note', FIELD_WORDS.noteText],
  ['/what', FIELD_WORDS.whatWasDone],
  ['/mending', FIELD_WORDS.howLong],
  ['/followUpDueOn', FIELD_WORDS.comeBackBy],
  ['/parts', FIELD_WORDS.partsUsed],
  ['/on', FIELD_WORDS.takenDay],
  ['/purpose', FIELD_WORDS.takenFor],
  ['/workDone', FIELD_WORDS.whatWasDone],
  ['/travelMinutes', FIELD_WORDS.travelMinutes],
  ['/name', FIELD_WORDS.signName],
  ['/remark', FIELD_WORDS.remark],
  ['/drawn', PAGE_WORDS.pen.label],
  ['/caption', photo.caption],
  ['/image', photo.choose],
  ['/reading/trunk', FIELD_WORDS.whichLine],
  ['/reading/core', FIELD_WORDS.whichCore],
  ['/reading/node', FIELD_WORDS.where],
  ['/reading/uncertaintyVolts', FIELD_WORDS.uncertainty('V')],
  ['/reading/uncertaintyOhms', FIELD_WORDS.uncertainty('Ω')],
  ['/reading', FIELD_WORDS.menu.reading],
  ['/observations', FIELD_WORDS.room],
  ['/looks', FIELD_WORDS.where],
  ['/place', FIELD_WORDS.where],
  ['/component', FIELD_WORDS.where],
  ['/mode', FIELD_WORDS.where],
  ...['/saidAt', '/takenAt', '/testedAt', '/signedAt', '/at'].map(
    (instant) => [instant, FIELD_WORDS.phoneClock] as const,
  ),
];

/** As it is called on the forms; undefined: no form has it. */
export function labelOfField(field: string): string | undefined {
  return LABELS.find(([own]) => field === own || field.startsWith(`${own}/`))?.[1];
}
