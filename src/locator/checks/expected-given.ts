import {
  DEFAULT_ERROR_RATES,
  type ErrorRates,
  type InformantKind,
} from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import { modeChances } from '../../plan/mode-chances.js';
import type { HeadEndSetting } from './check-action.js';
import { knobRows, type OutcomeRows, settingRows } from './check-outcomes.js';

/** What somebody said of settings of the head-end and of volume knobs: whether they were wrong. */
export interface SettingsTold {
  readonly settings: readonly { setting: HeadEndSetting; wrong: boolean; kind: InformantKind }[];
  readonly knobs: readonly { trunk: string; node: string; wrong: boolean; kind: InformantKind }[];
}

/**
 * The faults to be expected once settings were looked at: those whose modes have the prior chances P(mode) times
 * P(what was said | mode), made to sum to 1. A component is in one mode, so this is exact.
 */
export function expectedGiven(
  expected: ExpectedFaults,
  told: SettingsTold,
  errors: ErrorRates = DEFAULT_ERROR_RATES,
): ExpectedFaults {
  const headEnd = told.settings.reduce(
    (table, { setting, wrong, kind }) =>
      given(table, setting, settingRows(setting, errors[kind]), wrong),
    expected.headEnd,
  );
  const trunks = expected.trunks.map((trunk) => {
    const own = told.knobs.filter((knob) => knob.trunk === trunk.id);
    if (own.length === 0) return trunk;
    const nodes = trunk.nodes.map((node) => {
      const here = own.filter((knob) => knob.node === node.id);
      const station = here.reduce(
        (table, { wrong, kind }) => given(table, 'volume-down', knobRows(errors, kind), wrong),
        node.station,
      );
      return { ...node, station };
    });
    return { ...trunk, nodes };
  });
  return { headEnd, trunks };
}

function given<Table extends Readonly<Partial<Record<string, number>>>>(
  table: Table,
  mode: keyof Table & string,
  [ifRight = [], ifWrong = []]: OutcomeRows,
  wrong: boolean,
): Table {
  const said = wrong ? 1 : 0;
  const names = Object.keys(table);
  const { ok, modes } = modeChances(
    names.map((name) => table[name] ?? 0),
    1,
  );
  const right = ifRight[said] ?? 0;
  const weighed = names.map(
    (name, m) => (modes[m] ?? 0) * (name === mode ? (ifWrong[said] ?? 0) : right),
  );
  const faulty = weighed.reduce((sum, mass) => sum + mass, 0);
  const whole = ok * right + faulty;
  if (faulty === 0 || whole === 0) return table;
  const total = -Math.log1p(-faulty / whole);
  return Object.fromEntries(
    names.map((name, m) => [name, (total * (weighed[m] ?? 0)) / faulty]),
  ) as Table;
}
