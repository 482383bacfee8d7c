import { useLocation } from 'preact-iso';
import { useEffect } from 'preact/hooks';
import { TrunkDrawing } from '../../parts/drawing/trunk-drawing.js';
import type { NodeAt } from '../../parts/drawing/trunk-drawing.js';
import type { OtherWay } from '../../parts/redrawn.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadSite } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import { type DraftTrunk, metresOf } from './record-edits.js';
import { RecordNodePanel } from './record-node-panel.js';
import { RecordSave } from './record-save.js';
import { RecordSheet } from './record-sheet.js';
import { openDraft, type RecordDraft, useRecordDraft } from './use-record-draft.js';
import { RECORD_WORDS } from '../words/words.js';

type Opened = Awaited<ReturnType<typeof openDraft>> & { site: ReadSite };

/** The record of a site changed by hand: drawing and sheet side by side, saved at once as one version. */
export function RecordPage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`record of ${id}`, async () => {
    const [site, opened] = await Promise.all([
      service.read<ReadSite>(`/sites/${id}`),
      openDraft(service, id),
    ]);
    return { ...opened, site };
  });
  return <Loaded read={read}>{(opened) => <RecordEditor {...opened} />}</Loaded>;
}

/** What the parts of the editor are given. */
export interface RecordProps {
  draft: RecordDraft;
  chosen: NodeAt | undefined;
  onChoose: (node: NodeAt | undefined) => void;
}

function RecordEditor(opened: Opened) {
  const { site } = opened;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const draft = useRecordDraft(opened);
  const { chosen, setChosen } = useChosen(site.id);
  useAccepted(draft);
  const title = RECORD_WORDS.titleOf(site.name);
  useEffect(() => {
    document.title = title;
  }, [title]);
  const parts = { draft, chosen, onChoose: setChosen };
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {title}
        </h1>
        <a href={`/desk/sites/${site.id}`}>{RECORD_WORDS.backToSite}</a>
        <a href={`/desk/sites/${site.id}/versions`}>{RECORD_WORDS.versions}</a>
      </div>
      <p class="soft">{RECORD_WORDS.version(draft.version)}</p>
      <RecordSave {...parts} />
      <div class="record">
        <section>
          <h2>{RECORD_WORDS.drawing}</h2>
          <TrunkDrawing
            cables={asDrawn(draft.trunks)}
            said={NOTHING_SAID}
            changed={changedNodes(draft)}
            chosen={chosen}
            onChoose={setChosen}
          />
          {chosen === undefined && <p class="hint">{RECORD_WORDS.chooseHint}</p>}
          <RecordNodePanel {...parts} />
        </section>
        <RecordSheet {...parts} />
      </div>
    </article>
  );
}

const NOTHING_SAID: [] = [];

/** Which place is open: with what is typed there it outlives a reload. */
function useChosen(siteId: string) {
  const empty: { chosen: NodeAt | undefined } = { chosen: undefined };
  const { draft, give } = useDraft(`place in record ${siteId}`, empty);
  return { ...draft, setChosen: (chosen: NodeAt | undefined) => give({ chosen }) };
}

/** An alternative that somebody confirmed on site comes from a ticket by the address, once. */
function useAccepted(draft: RecordDraft): void {
  const { query, path, route } = useLocation();
  const { trunk, kind, from, to, ticket } = query;
  useEffect(() => {
    const looked = RECORD_WORDS.looked[kind as OtherWay['kind']];
    if (trunk === undefined || from === undefined || to === undefined || !looked) return;
    const way = { kind: kind as OtherWay['kind'], from, to };
    const reason = RECORD_WORDS.whyOfDoubt(ticket ?? '', looked);
    draft.make({ trunk, kind: 'redraw', way }, reason);
    route(path, true);
    // Once for each address: what is made of it is in the draft from then on.
  }, [trunk, kind, from, to]);
}

function asDrawn(trunks: readonly DraftTrunk[]) {
  return trunks.map((trunk) => ({
    ...trunk,
    nodes: trunk.nodes.map((node) => ({ ...node, cableMetres: metresOf(node.cableMetres) ?? 0 })),
  }));
}

/** What is not as the record has it. */
function changedNodes({ base, trunks }: RecordDraft): NodeAt[] {
  const recorded = new Map(
    base.trunks.flatMap(({ trunk, nodes }) =>
      nodes.map((node) => [JSON.stringify([trunk, node.node]), JSON.stringify(node)]),
    ),
  );
  return trunks.flatMap(({ trunk, nodes }) =>
    nodes
      .filter((node) => recorded.get(JSON.stringify([trunk, node.node])) !== JSON.stringify(node))
      .map(({ node }) => ({ trunk, node })),
  );
}
