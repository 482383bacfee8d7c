import { ChooseField } from '../../parts/choose-field.js';
import { useDraft } from '../use-draft.js';
import { type CablePlace, type DraftNode, nextCode } from './record-edits.js';
import type { RecordPanelProps } from './record-node-panel.js';
import { placeOf } from './record-words.js';
import { RECORD_WORDS } from '../words/words.js';

/** The cable itself: something put in, hung behind, moved or taken off. */
export function RecordBuild(panel: RecordPanelProps) {
  const { draft, trunk, node, nodes, onChoose } = panel;
  const name = placeOf(draft.trunks, trunk, node.node);
  const put = (as: DraftNode['kind'], place: CablePlace) => {
    const code = nextCode({ trunk, name: '', port: null, nodes });
    draft.make({ kind: 'insert', trunk, node: code, as, place });
    onChoose({ trunk, node: code });
  };
  return (
    <section>
      <h3>{RECORD_WORDS.build}</h3>
      <PutIn
        legend={RECORD_WORDS.insertBefore(name)}
        put={(as) => put(as, { before: node.node })}
      />
      <PutIn
        legend={RECORD_WORDS.hangBehind(name)}
        hint={RECORD_WORDS.hangHint}
        put={(as) => put(as, { behind: node.node })}
      />
      <MoveAlone {...panel} />
      <button
        type="button"
        onClick={() => {
          draft.make({ kind: 'remove', trunk, node: node.node });
          onChoose(undefined);
        }}
      >
        {RECORD_WORDS.remove}
      </button>
    </section>
  );
}

interface PutInProps {
  legend: string;
  hint?: string;
  put: (as: DraftNode['kind']) => void;
}

function PutIn({ legend, hint, put }: PutInProps) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      {hint !== undefined && <p class="hint">{hint}</p>}
      <div class="buttons">
        <button type="button" class="small" onClick={() => put('station')}>
          {RECORD_WORDS.insertStation}
        </button>
        <button type="button" class="small" onClick={() => put('junction-box')}>
          {RECORD_WORDS.insertBox}
        </button>
      </div>
    </fieldset>
  );
}

function MoveAlone({ draft, trunk, node, nodes }: RecordPanelProps) {
  const {
    draft: { to },
    give,
    settle,
  } = useDraft(`move of ${node.node} on ${trunk} in record ${draft.base.siteId}`, { to: '' });
  const others = nodes.filter((one) => one.node !== node.node);
  const name = (code: string) => placeOf(draft.trunks, trunk, code);
  const choices = others.flatMap((one) => [
    ...(one.fedFrom === node.node
      ? []
      : [{ value: `before ${one.node}`, words: RECORD_WORDS.moveInto(name(one.node)) }]),
    { value: `behind ${one.node}`, words: RECORD_WORDS.moveBehind(name(one.node)) },
  ]);
  const move = () => {
    const [how, ...code] = to.split(' ');
    const other = code.join(' ');
    if (other === '') return;
    const place = how === 'before' ? { before: other } : { behind: other };
    draft.make({ kind: 'move', trunk, node: node.node, place });
    settle();
  };
  if (others.length === 0) return null;
  return (
    <>
      <ChooseField
        label={RECORD_WORDS.moveTo}
        value={to}
        choices={[{ value: '', words: RECORD_WORDS.moveNowhere }, ...choices]}
        onValue={(chosen) => give({ to: chosen })}
      />
      <p>
        <button type="button" class="small" aria-disabled={to === ''} onClick={move}>
          {RECORD_WORDS.moveButton}
        </button>
      </p>
    </>
  );
}
