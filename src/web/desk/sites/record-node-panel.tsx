import { useState } from 'preact/hooks';
import { FUNCTIONS_AS_ASKED } from '#app/words/index.js';
import { ChooseField, TickField, TicksField } from '../../parts/choose-field.js';
import { DRAWING_WORDS } from '../../parts/drawing/drawing-words.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useDraft } from '../use-draft.js';
import { behind, type DraftNode, type SetField } from './record-edits.js';
import { RecordBuild } from './record-build.js';
import type { RecordProps } from './record-page.js';
import { placeOf } from './record-words.js';
import { RECORD_WORDS } from '../words/words.js';

/** What the record says of one place, each field to be changed. */
export function RecordNodePanel({ draft, chosen, onChoose }: RecordProps) {
  const trunk = draft.trunks.find((one) => one.trunk === chosen?.trunk);
  const node = trunk?.nodes.find((one) => one.node === chosen?.node);
  if (trunk === undefined || node === undefined) return null;
  const panel = { draft, node, nodes: trunk.nodes, trunk: trunk.trunk, onChoose };
  return (
    <div class="panel" key={`${trunk.trunk}/${node.node}`}>
      <PlaceHead name={placeOf(draft.trunks, trunk.trunk, node.node)} />
      <div class="record-fields">
        <CableFields {...panel} />
        {node.kind === 'station' && <StationFields {...panel} />}
      </div>
      <RecordBuild {...panel} />
    </div>
  );
}

function PlaceHead({ name }: { name: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <h3 tabIndex={-1} ref={heading}>
      {name}
    </h3>
  );
}

export interface RecordPanelProps extends Pick<RecordProps, 'draft' | 'onChoose'> {
  trunk: string;
  node: DraftNode;
  nodes: DraftNode[];
}

/** Sets fields of the place, and what was refused of each. */
function useFields({ draft, trunk, node }: RecordPanelProps) {
  const { node: code } = node;
  return {
    set: (field: SetField, value: DraftNode[SetField]) =>
      draft.make({ kind: 'set', trunk, node: code, field, value }),
    wrong: (field: string) =>
      draft.refused.find(
        (one) => one.trunk === trunk && one.node === code && one.field.split('/')[0] === field,
      )?.reason,
  };
}

type TextOf = 'room' | 'block' | 'floor' | 'cableType' | 'unitModel' | 'unitSerial';

function TextOfNode({ field, ...panel }: RecordPanelProps & { field: TextOf }) {
  const { set, wrong } = useFields(panel);
  return (
    <TextField
      label={RECORD_WORDS[field]}
      autocomplete="off"
      maxLength={100}
      value={panel.node[field] ?? ''}
      onValue={(value) => set(field, value === '' ? null : value)}
      error={wrong(field)}
    />
  );
}

/** A code is given once it is typed to its end: others are fed by it. */
function CodeField(panel: RecordPanelProps) {
  const { draft, trunk, node, nodes, onChoose } = panel;
  const { wrong } = useFields(panel);
  const {
    draft: { code },
    give,
    settle,
  } = useDraft(`code of ${node.node} on ${trunk} in record ${draft.base.siteId}`, {
    code: node.node,
  });
  const isTaken = code !== node.node && nodes.some((one) => one.node === code);
  const rename = () => {
    if (code === node.node) settle();
    if (isTaken || code.trim() === '' || code === node.node) return;
    settle();
    draft.make({ kind: 'rename', trunk, node: node.node, to: code });
    onChoose({ trunk, node: code });
  };
  return (
    <div onFocusOut={rename}>
      <TextField
        label={RECORD_WORDS.code}
        autocomplete="off"
        maxLength={20}
        value={code}
        onValue={(typed) => give({ code: typed })}
        error={isTaken ? RECORD_WORDS.codeThere : wrong('node')}
      />
    </div>
  );
}

function CableFields(panel: RecordPanelProps) {
  const { draft, trunk, node, nodes } = panel;
  const { set, wrong } = useFields(panel);
  const own = behind(nodes, node.node);
  const feeders = nodes.filter((one) => !own.has(one.node));
  return (
    <>
      <CodeField {...panel} />
      <ChooseField
        label={RECORD_WORDS.kind}
        value={node.kind}
        choices={[
          { value: 'station', words: RECORD_WORDS.station },
          { value: 'junction-box', words: RECORD_WORDS.junctionBox },
        ]}
        onValue={(value) => set('kind', value)}
        error={wrong('kind')}
      />
      <ChooseField
        label={RECORD_WORDS.fedFrom}
        value={node.fedFrom ?? ''}
        choices={[
          { value: '', words: RECORD_WORDS.headEnd },
          ...feeders.map((one) => {
            return { value: one.node, words: placeOf(draft.trunks, trunk, one.node) };
          }),
        ]}
        onValue={(value) =>
          draft.make({ kind: 'feed', trunk, node: node.node, fedFrom: value === '' ? null : value })
        }
        error={wrong('fedFrom')}
      />
      <TextField
        label={RECORD_WORDS.metres}
        hint={RECORD_WORDS.metresHint}
        autocomplete="off"
        maxLength={10}
        value={String(node.cableMetres ?? '')}
        onValue={(value) => set('cableMetres', value)}
        error={wrong('cableMetres')}
      />
      <TickField
        label={RECORD_WORDS.isGuess}
        value={node.isLengthGuessed}
        onValue={(value) => set('isLengthGuessed', value)}
      />
      <TextOfNode {...panel} field="cableType" />
      <TextOfNode {...panel} field="block" />
      <TextOfNode {...panel} field="floor" />
    </>
  );
}

function StationFields(panel: RecordPanelProps) {
  const { node } = panel;
  const { set, wrong } = useFields(panel);
  return (
    <>
      <TextOfNode {...panel} field="room" />
      <GroupsField
        groups={node.groups}
        onGroups={(groups) => set('groups', groups)}
        error={wrong('groups')}
      />
      <TickField
        label={RECORD_WORDS.isOut}
        value={node.isOut}
        onValue={(value) => set('isOut', value)}
      />
      <TextOfNode {...panel} field="unitModel" />
      <TextOfNode {...panel} field="unitSerial" />
      <TextField
        label={RECORD_WORDS.unitInstalledOn}
        type="date"
        autocomplete="off"
        value={node.unitInstalledOn ?? ''}
        onValue={(value) => set('unitInstalledOn', value === '' ? null : value)}
        error={wrong('unitInstalledOn')}
      />
      <TicksField
        legend={RECORD_WORDS.lacks}
        choices={FUNCTIONS_AS_ASKED.map((id) => ({ id, name: DRAWING_WORDS.functions[id] }))}
        chosen={node.lacks}
        onChosen={(lacks) => set('lacks', lacks)}
        error={wrong('lacks')}
      />
    </>
  );
}

interface GroupsFieldProps {
  groups: readonly string[];
  onGroups: (groups: string[]) => void;
  error: string | undefined;
}

/** Names with commas between, as they are typed. */
function GroupsField({ groups, onGroups, error }: GroupsFieldProps) {
  const [typed, setTyped] = useState(groups.join(', '));
  const names = (text: string) => text.split(',').map((name) => name.trim());
  const isSame = names(typed).filter(Boolean).join() === groups.join();
  return (
    <TextField
      label={RECORD_WORDS.groups}
      autocomplete="off"
      value={isSame ? typed : groups.join(', ')}
      onValue={(text) => {
        setTyped(text);
        onGroups(names(text).filter(Boolean));
      }}
      error={error}
    />
  );
}
