import { useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import { TextField } from '../../parts/text-field.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { type DraftNode, type DraftTrunk, nextCode, type SetField } from './record-edits.js';
import type { RecordProps } from './record-page.js';
import { placeOf } from './record-words.js';
import type { RecordDraft } from './use-record-draft.js';
import { RECORD_WORDS } from '../words/words.js';

/** One trunk as a sheet: what is changed most is changed in its cells, all else where a place is opened. */
export function RecordSheet(props: RecordProps) {
  const { draft, chosen, onChoose } = props;
  const [asked, setAsked] = useState<string>();
  const shown =
    draft.trunks.find(({ trunk }) => trunk === (chosen?.trunk ?? asked)) ?? draft.trunks[0];
  const { columns } = RECORD_WORDS;
  return (
    <section>
      <h2>{RECORD_WORDS.sheet}</h2>
      {draft.trunks.length > 1 && (
        <ChooseField
          label={RECORD_WORDS.whichTrunk}
          value={shown?.trunk ?? ''}
          choices={draft.trunks.map(({ trunk, name }) => {
            return { value: trunk, words: name === '' ? trunk : `${trunk}, ${name}` };
          })}
          onValue={(trunk) => {
            onChoose(undefined);
            setAsked(trunk);
          }}
        />
      )}
      {shown !== undefined && (
        <div
          class="scrolls"
          tabIndex={0}
          role="region"
          aria-label={RECORD_WORDS.sheetOf(shown.trunk)}
        >
          <table class="record-sheet">
            <thead>
              <tr>
                {Object.values(columns).map((head) => (
                  <th key={head} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {shown.nodes.map((node) => (
                <SheetRow key={node.node} {...props} trunk={shown} node={node} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      <AddTrunk {...draft} />
    </section>
  );
}

interface SheetRowProps extends RecordProps {
  trunk: DraftTrunk;
  node: DraftNode;
}

function SheetRow({ draft, chosen, onChoose, trunk, node }: SheetRowProps) {
  const place = placeOf(draft.trunks, trunk.trunk, node.node);
  const at = { trunk: trunk.trunk, node: node.node };
  const isChosen = chosen?.trunk === at.trunk && chosen.node === at.node;
  const { columns } = RECORD_WORDS;
  const cell = (field: SetField, column: string, value: string) => (
    <SheetCell {...{ draft, at, field, value }} label={RECORD_WORDS.cell(column, node.node)} />
  );
  return (
    <tr class={isChosen ? 'is-chosen' : undefined}>
      <th scope="row">
        <button
          type="button"
          class="small"
          aria-pressed={isChosen}
          aria-label={RECORD_WORDS.choose(node.node, place)}
          onClick={() => onChoose(isChosen ? undefined : at)}
        >
          {node.node}
        </button>
      </th>
      <td>
        {node.kind === 'station'
          ? cell('room', columns.room, node.room ?? '')
          : RECORD_WORDS.junctionBox}
      </td>
      <td>
        {node.fedFrom === null
          ? RECORD_WORDS.headEnd
          : placeOf(draft.trunks, trunk.trunk, node.fedFrom)}
      </td>
      <td>
        {cell('cableMetres', columns.metres, String(node.cableMetres ?? ''))}
        {node.isLengthGuessed && <span class="soft"> {RECORD_WORDS.guessed}</span>}
      </td>
      <td>{node.groups.join(', ')}</td>
      <td>{node.isOut && RECORD_WORDS.out}</td>
    </tr>
  );
}

interface SheetCellProps {
  draft: RecordDraft;
  at: { trunk: string; node: string };
  field: SetField;
  value: string;
  label: string;
}

function SheetCell({ draft, at, field, value, label }: SheetCellProps) {
  const wrong = draft.refused.find(
    (one) => one.trunk === at.trunk && one.node === at.node && one.field === field,
  );
  const id = `${at.trunk}-${at.node}-${field}-error`;
  const isText = field !== 'cableMetres';
  return (
    <>
      <input
        aria-label={label}
        value={value}
        inputMode={isText ? 'text' : 'decimal'}
        class={isText ? undefined : 'number'}
        aria-invalid={wrong ? 'true' : undefined}
        aria-describedby={wrong && id}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          const given = isText && typed === '' ? null : typed;
          draft.make({ kind: 'set', ...at, field, value: given });
        }}
      />
      {wrong && (
        <span class="error" id={id}>
          {wrong.reason}
        </span>
      )}
    </>
  );
}

function AddTrunk({ base, trunks, make }: RecordDraft) {
  const purpose = `new trunk in record ${base.siteId}`;
  const {
    draft: { code },
    give,
    settle,
  } = useDraft(purpose, { code: '' });
  const isBegun = useIsBegun(purpose);
  const [error, setError] = useState<string>();
  const begin = () => {
    const trunk = code.trim();
    const isFree = trunk !== '' && trunks.every((one) => one.trunk !== trunk);
    setError(isFree ? undefined : RECORD_WORDS.trunkThere);
    if (!isFree) return;
    make({ kind: 'trunk', trunk, node: nextCode({ trunk, name: '', port: null, nodes: [] }) });
    settle();
  };
  return (
    <details open={isBegun}>
      <summary>{RECORD_WORDS.addTrunk}</summary>
      <TextField
        label={RECORD_WORDS.trunkCode}
        autocomplete="off"
        maxLength={20}
        value={code}
        onValue={(typed) => give({ code: typed })}
        error={error}
      />
      <button type="button" onClick={begin}>
        {RECORD_WORDS.begin}
      </button>
    </details>
  );
}
