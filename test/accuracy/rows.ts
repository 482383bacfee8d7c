import {
  drawAsModel,
  drawWithDrawing,
  drawWithRates,
  wrongMetres,
  wrongOrder,
} from './draw-as-model.js';
import { drawComplained } from './draw-complained.js';
import { drawGroupSetting, drawHiddenShort, drawSwappedAddresses } from './draw-forced.js';
import { drawChanged, drawCopied, drawVolunteered } from './draw-told.js';
import { MODEL_RATES, type Rates, scaleRates } from './faults.js';
import type { Draw, Row } from './run-row.js';
import { posedAsHeard, posedAsVolunteered } from './volunteer.js';

const MANY_VOLUME_KNOBS: Rates = {
  ...MODEL_RATES,
  station: { ...MODEL_RATES.station, 'volume-down': 10 * MODEL_RATES.station['volume-down']! },
};

export const AS_MODEL: Row = {
  name: 'gone through, everything as the model says',
  sameAsModel: true,
  seed: 1,
  cases: 6000,
  draw: drawAsModel,
};

/** Calls arise from trouble, and from nothing as seldom as the model says. */
export const COMPLAINED: Row = {
  name: 'begun by a complaint, everything as the model says',
  sameAsModel: true,
  seed: 14,
  cases: 1000,
  draw: drawComplained,
};

const other = (name: string, seed: number, draw: Draw): Row => {
  return { name, sameAsModel: false, seed, cases: 300, draw };
};

/** Rows with one seed are the same cases, put to the locator in two ways. Numbers: traps of the fault model's section 9. */
export const OTHER_ROWS: readonly Row[] = [
  other('1: volunteered, as the record puts it', 2, drawVolunteered(posedAsVolunteered)),
  other('1: volunteered, not mentioned taken for heard', 2, drawVolunteered(posedAsHeard)),
  other('2: one caller listened once, said it of five rooms', 3, drawCopied),
  other('3: changed since yesterday, both days taken together', 4, drawChanged('both sittings')),
  other('3: changed since yesterday, today’s words only', 4, drawChanged('today only')),
  other('4: two addresses swapped', 5, drawSwappedAddresses),
  other('5: the tail switched off at the head-end', 6, drawGroupSetting),
  other(
    '6: volume turned down ten times as often',
    7,
    drawWithRates(() => MANY_VOLUME_KNOBS),
  ),
  other('7: an open hides a short', 8, drawHiddenShort),
  other(
    'all true rates 3 times the model’s',
    9,
    drawWithRates(() => scaleRates(() => 3)),
  ),
  other(
    'all true rates a third of the model’s',
    10,
    drawWithRates(() => scaleRates(() => 1 / 3)),
  ),
  other(
    'each true rate 3 times or a third, by chance',
    11,
    drawWithRates((random) => scaleRates(() => (random() < 0.5 ? 3 : 1 / 3))),
  ),
  other('each length wrong by up to a factor of 2', 12, drawWithDrawing(wrongMetres)),
  other('drawing: two neighbouring rooms of each trunk swapped', 13, drawWithDrawing(wrongOrder)),
];
