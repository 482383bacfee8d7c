import { exp } from '../../elementary/exp.js';
import { reachOfJoint } from './joint-reach.js';
import { PredictedReadings } from './predict-readings.js';

interface Row {
  ohms: number;
  readings: PredictedReadings | null;
}

const LOG_STEP = 0.2;
/** Halvings that place the edge of collapse within a thousandth of its ohms. */
const EDGE_HALVINGS = 8;

/**
 * Expected readings as a function of the joint's ohms, by a table: the ladder is solved once for
 * each row, however finely the joint's size is then integrated. Straight lines in ohms between
 * rows are exact for constant currents. Constant powers they follow within 8 mV while three
 * quarters of the voltage are left, and within 50 mV near collapse, where a tenth more load is worth
 * volts (tabulate-readings.spec.ts). Null where the supply collapses, as it does from some size on.
 */
export function tabulateReadings(
  jointOhms: { medianOhms: number; logDeviation: number },
  predict: (ohms: number) => PredictedReadings | null,
): (ohms: number) => PredictedReadings | null {
  const { fromLogOhms, toLogOhms } = reachOfJoint(jointOhms);
  const steps = Math.ceil((toLogOhms - fromLogOhms) / LOG_STEP);
  const rows: Row[] = [];
  for (let i = 0; i <= steps; i++) {
    const ohms = exp(fromLogOhms + (i * (toLogOhms - fromLogOhms)) / steps);
    const readings = predict(ohms);
    if (readings === null) {
      addEdge(rows, ohms, predict);
      break;
    }
    rows.push({ ohms, readings });
  }
  return (ohms) => between(rows, ohms);
}

function addEdge(
  rows: Row[],
  collapsesAtOhms: number,
  predict: (ohms: number) => PredictedReadings | null,
): void {
  let collapses = collapsesAtOhms;
  let holds = rows.at(-1)?.ohms ?? 0;
  for (let halving = 0; halving < EDGE_HALVINGS; halving++) {
    const ohms = (holds + collapses) / 2;
    const readings = predict(ohms);
    if (readings === null) {
      collapses = ohms;
    } else {
      holds = ohms;
      rows.push({ ohms, readings });
    }
  }
}

function between(rows: Row[], ohms: number): PredictedReadings | null {
  let low = 0;
  let high = rows.length - 1;
  // The ends of the reach come back from log and exp with a rounding error.
  if (high < 0 || ohms > (rows[high]?.ohms ?? 0) * (1 + 1e-12)) return null;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((rows[middle]?.ohms ?? 0) <= ohms) low = middle;
    else high = middle;
  }
  const [from, to] = [rows[low], rows[high]];
  if (!from?.readings || !to?.readings) return null;
  const share = to.ohms > from.ohms ? (ohms - from.ohms) / (to.ohms - from.ohms) : 0;
  const mixed = (a: number[], b: number[]) => a.map((x, i) => x + share * ((b[i] ?? x) - x));
  const toEffects = to.readings.effects;
  return {
    volts: mixed(from.readings.volts, to.readings.volts),
    effects: from.readings.effects.map((effect, k) => mixed(effect, toEffects[k] ?? effect)),
  };
}
