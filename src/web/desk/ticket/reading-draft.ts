import type { Core, LOOP_CORES } from '#app/locator/index.js';
import type { NodeChosen } from '../../parts/node-field.js';
import { type Measured, numberTyped, usualUncertainty } from '../../parts/typed-number.js';
import { EVIDENCE_WORDS } from '../words/words.js';

export type MeterKind = Measured | 'continuity';

/** A reading as it is being entered, for each kind what it needs. */
export interface ReadingDraft {
  kind: MeterKind;
  /** Where volts were read; of continuity, the far end. */
  node: NodeChosen | undefined;
  /** Of continuity; undefined: the head-end. */
  from: NodeChosen | undefined;
  trunk: string;
  core: (typeof LOOP_CORES)[number];
  cores: readonly Core[];
  passes: boolean;
  number: string;
  /** Empty: that of a usual meter. */
  uncertainty: string;
}

export function emptyReading(trunk: string): ReadingDraft {
  return {
    kind: 'supply-volts',
    node: undefined,
    from: undefined,
    trunk,
    core: 'supply',
    cores: ['supply', 'return'],
    passes: true,
    number: '',
    uncertainty: '',
  };
}

/** One thing wrong, by the field as the service names it. */
export interface Lacking {
  field: string;
  reason: string;
}

/** The reading as the service takes it, or all that is missing. */
export function readingOf(draft: ReadingDraft): { reading: object } | { errors: Lacking[] } {
  if (draft.kind === 'continuity') return continuityOf(draft);
  const { kind, node, trunk, core } = draft;
  const typed = draft.number.trim().replace(',', '.');
  const value = numberTyped(typed);
  const own = draft.uncertainty.trim().replace(',', '.');
  const uncertainty = own === '' ? usualUncertainty(kind, value ?? 0) : numberTyped(own);
  const isVolts = kind === 'supply-volts';
  const errors = [
    ...lacks(isVolts && node === undefined, '/reading/node', EVIDENCE_WORDS.noWhere),
    ...lacks(value === null, isVolts ? '/reading/volts' : '/reading/ohms', EVIDENCE_WORDS.noNumber),
    ...lacks(
      uncertainty === null || uncertainty <= 0,
      isVolts ? '/reading/uncertaintyVolts' : '/reading/uncertaintyOhms',
      EVIDENCE_WORDS.noUncertainty,
    ),
  ];
  if (errors.length > 0) return { errors };
  return {
    reading: isVolts
      ? { kind, ...node, volts: value, uncertaintyVolts: uncertainty }
      : { kind, trunk, core, ohms: value, uncertaintyOhms: uncertainty },
  };
}

function continuityOf({ kind, node, from, cores, passes }: ReadingDraft) {
  const errors = [
    ...lacks(node === undefined, '/reading/to', EVIDENCE_WORDS.noWhere),
    ...lacks(cores.length === 0, '/reading/cores', EVIDENCE_WORDS.noCores),
  ];
  if (node === undefined || errors.length > 0) return { errors };
  const { trunk, node: to } = node;
  return { reading: { kind, trunk, from: from?.node ?? null, to, cores, passes } };
}

function lacks(isLacking: boolean, field: string, reason: string): Lacking[] {
  return isLacking ? [{ field, reason }] : [];
}
