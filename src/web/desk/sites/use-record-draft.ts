import { useState } from 'preact/hooks';
import { Failure } from '../../parts/failure.js';
import { DRAFT, keepIn } from '../../parts/kept.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadDrawnRecord, RecordChange, RecordComparison } from '../../parts/wire.js';
import { applied, asSent, type DraftTrunk, type RecordEdit, withEdit } from './record-edits.js';

/** What others saved while somebody was at it. */
export interface Meanwhile {
  by: Pick<ReadDrawnRecord, 'version' | 'changedBy' | 'reason'>;
  comparison: RecordComparison;
}

/** Something that the service refused, at its field of a node or of a trunk. */
export interface RefusedField {
  trunk: string;
  /** Null: of the trunk itself. */
  node: string | null;
  field: string;
  reason: string;
}

export interface KeptDraft {
  version: number;
  edits: readonly RecordEdit[];
  reason: string;
}

/** What is kept over a reload of changes to a site's record. */
export const keptDrafts = keepIn(() => sessionStorage);
export const draftKey = (siteId: string) => `${DRAFT}record ${siteId}`;

interface DraftState extends KeptDraft {
  base: ReadDrawnRecord;
  refused: readonly RefusedField[];
  meanwhile: Meanwhile | undefined;
  savedAs: number | undefined;
}

export interface RecordDraft extends DraftState {
  trunks: DraftTrunk[];
  unfit: RecordEdit[];
  isSending: boolean;
  failure: Failure | undefined;
  /** `why`: what stands as the reason where none was given. */
  make: (edit: RecordEdit, why?: string) => void;
  undo: () => void;
  drop: () => void;
  setReason: (reason: string) => void;
  save: () => void;
}

/** What is asked to know what others saved. */
async function readMeanwhile(
  service: ReturnType<typeof useService>,
  newest: ReadDrawnRecord,
  since: number,
): Promise<Meanwhile> {
  const query = `from=${since}&to=${newest.version}`;
  const path = `/sites/${newest.siteId}/as-built/compare?${query}`;
  return { by: newest, comparison: await service.read<RecordComparison>(path) };
}

/** The newest record with what was begun on it before, and what others saved meanwhile. */
export async function openDraft(
  service: ReturnType<typeof useService>,
  siteId: string,
): Promise<{ base: ReadDrawnRecord; begun: KeptDraft; meanwhile: Meanwhile | undefined }> {
  const base = await service.read<ReadDrawnRecord>(`/sites/${siteId}/as-built`);
  const begun = keptDrafts.read<KeptDraft>(draftKey(siteId));
  if (begun === undefined || begun.edits.length === 0)
    return { base, begun: { version: base.version, edits: [], reason: '' }, meanwhile: undefined };
  const isOlder = begun.version < base.version;
  const meanwhile = isOlder ? await readMeanwhile(service, base, begun.version) : undefined;
  return { base, begun, meanwhile };
}

/** Changes to a record, undone one by one, until all are saved at once as one version. */
export function useRecordDraft(opened: Awaited<ReturnType<typeof openDraft>>): RecordDraft {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const [state, setState] = useState<DraftState>(() => {
    const { base, begun, meanwhile } = opened;
    return { ...begun, version: base.version, base, meanwhile, refused: [], savedAs: undefined };
  });
  const give = (more: Partial<DraftState>) => {
    const next = { ...state, savedAs: undefined, ...more };
    const { version, edits, reason } = next;
    const isBegun = edits.length > 0;
    keptDrafts.write(draftKey(next.base.siteId), isBegun ? { version, edits, reason } : undefined);
    setState(next);
  };
  const made = applied(state.base, state.edits);
  const save = () =>
    send(async () => {
      const { headEnd, siteId } = state.base;
      const trunks = asSent(made.trunks);
      const body = {
        headEnd,
        trunks,
        changedBy: service.session.person.name,
        reason: state.reason,
      };
      const path = `/sites/${siteId}/as-built`;
      try {
        await service.send<RecordChange>('PUT', path, { body, ifMatch: state.version });
      } catch (error) {
        if (!(error instanceof Failure)) throw error;
        if (error.status !== 412) give({ refused: refusedFields(error, made.trunks) });
        if (error.status !== 412) throw error;
        const base = await service.read<ReadDrawnRecord>(path);
        const meanwhile = await readMeanwhile(service, base, state.version);
        return give({ base, version: base.version, meanwhile, refused: [] });
      }
      const base = await service.read<ReadDrawnRecord>(path);
      const done = { edits: [], reason: '', refused: [], meanwhile: undefined };
      give({ ...done, base, version: base.version, savedAs: base.version });
    });
  return {
    ...state,
    ...made,
    isSending,
    failure,
    make: (edit, why = '') =>
      give({
        edits: withEdit(state.edits, edit),
        reason: state.reason === '' ? why : state.reason,
        refused: state.refused.filter((one) => !concerns(one, edit)),
      }),
    undo: () => give({ edits: state.edits.slice(0, -1), refused: [] }),
    drop: () => give({ edits: [], refused: [], meanwhile: undefined }),
    setReason: (reason) => give({ reason }),
    save,
  };
}

function concerns(refused: RefusedField, edit: RecordEdit): boolean {
  if (edit.trunk !== refused.trunk || !('node' in edit) || edit.node !== refused.node) return false;
  return edit.kind !== 'set' || edit.field === refused.field;
}

/** Of a refusal, what belongs to a node or a trunk, by the codes that were sent. */
function refusedFields(failure: Failure, trunks: readonly DraftTrunk[]): RefusedField[] {
  return failure.errors.flatMap(({ field, reason }) => {
    const [, t, rest = ''] = /^\/trunks\/(\d+)(.*)$/.exec(field) ?? [];
    const trunk = trunks[Number(t)];
    if (trunk === undefined) return [];
    const [, n, own] = /^\/nodes\/(\d+)\/?(.*)$/.exec(rest) ?? [];
    const node = n === undefined ? undefined : trunk.nodes[Number(n)];
    const name = own ?? rest.slice(1);
    return [{ trunk: trunk.trunk, node: node?.node ?? null, field: name, reason }];
  });
}
