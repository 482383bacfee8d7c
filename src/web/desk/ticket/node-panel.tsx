import { useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import type { DrawnChances, SaidOutcome } from '../../parts/drawing/drawn-facts.js';
import { DRAWING_WORDS, percent, stationName } from '../../parts/drawing/drawing-words.js';
import type { NodeAt } from '../../parts/drawing/trunk-drawing.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { atSite } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import { asHeadline } from '../desk-words.js';
import type { TicketViewProps } from './ticket-view.js';
import { pointInWords } from './ticket-words.js';
import type { Suppose } from './use-suppose.js';
import { TICKET_WORDS } from '../words/words.js';

interface NodePanelProps extends TicketViewProps {
  at: NodeAt;
  chances: DrawnChances | undefined;
  suppose: Suppose;
  onClose: () => void;
}

const OUTCOMES: readonly SaidOutcome[] = ['works', 'fails', 'weak'];

/** One place: what was said there, what it may be, what one can do about it. */
export function NodePanel(props: NodePanelProps) {
  const { at, record, kit, suppose, onClose } = props;
  const station = record.trunks
    .find(({ trunk }) => trunk === at.trunk)
    ?.nodes.find(({ node }) => node === at.node);
  if (station === undefined) return null;
  const name = stationName(station);
  const isRoom = station.kind === 'station' && !station.isOut;
  const here = suppose.supposed.find((one) => one.trunk === at.trunk && one.node === at.node);
  const unit = [station.unitModel, station.unitSerial, station.unitInstalledOn].filter(Boolean);
  return (
    <aside class="panel" key={`${at.trunk}/${at.node}`} aria-label={name}>
      <PanelHead name={name} onClose={onClose} />
      <PanelChances {...props} />
      <PanelSaid {...props} />
      {unit.length > 0 && (
        <p class="soft">
          {TICKET_WORDS.parts}: {unit.join(', ')}
        </p>
      )}
      {isRoom && kit !== undefined && (
        <fieldset>
          <legend>
            {TICKET_WORDS.suppose} {pointInWords(name, suppose.tried)}
          </legend>
          <div class="buttons">
            {OUTCOMES.map((outcome) => (
              <button
                key={outcome}
                type="button"
                class="small"
                aria-pressed={here?.outcome === outcome}
                onClick={() => suppose.set(at, here?.outcome === outcome ? null : outcome)}
              >
                {DRAWING_WORDS.marks[outcome]}
              </button>
            ))}
          </div>
        </fieldset>
      )}
      {isRoom && <EnterHere {...props} />}
    </aside>
  );
}

function PanelHead({ name, onClose }: { name: string; onClose: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <div class="line-up">
      <h2 tabIndex={-1} ref={heading}>
        {name}
      </h2>
      <button type="button" class="small" onClick={onClose}>
        {TICKET_WORDS.close}
      </button>
    </div>
  );
}

/** Each component's chance. */
function PanelChances({ at, location }: NodePanelProps) {
  const places = (location?.places ?? []).filter(
    ({ place }) => place.trunk === at.trunk && (place.to === at.node || place.node === at.node),
  );
  const components = places.flatMap((one) => one.components);
  if (components.length === 0) return null;
  return (
    <table class="causes">
      <tbody>
        {components.map(({ words, faulty }) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            <td class="number">{percent(faulty)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function PanelSaid({ at, told, site, location }: NodePanelProps) {
  const doubts = (location?.contradictions ?? []).filter(
    ({ trunk, node }) => trunk === at.trunk && node === at.node,
  );
  const here = told.filter(({ trunk, node }) => trunk === at.trunk && node === at.node);
  return (
    <>
      <h3>{TICKET_WORDS.said}</h3>
      {here.length === 0 && <p>{TICKET_WORDS.nothingSaid}</p>}
      <ul class="plain">
        {here.map((one) => (
          <li key={one.id} class={one.withdrawal === null ? undefined : 'withdrawn'}>
            {DRAWING_WORDS.functions[one.function as keyof typeof DRAWING_WORDS.functions]}{' '}
            {DRAWING_WORDS.marks[one.outcome as SaidOutcome]}, {one.saidBy},{' '}
            {atSite(one.observedAt, site.zone)}
          </li>
        ))}
      </ul>
      {doubts.map(({ words }) => (
        <p key={words} class="notice">
          {asHeadline(words)}
        </p>
      ))}
    </>
  );
}

/** Somebody tells of this room, and it is recorded. */
function EnterHere({ at, ticket, suppose, onChanged }: NodePanelProps) {
  const service = useService();
  const [name, setName] = useState('');
  const { isSending, failure, send } = useSending();
  const enter = (outcome: SaidOutcome) =>
    send(async () => {
      const observation = { trunk: at.trunk, node: at.node, function: suppose.tried, outcome };
      const body = {
        id: uuidv7(),
        saidBy: { name: name.trim(), kind: 'office' },
        how: 'gone-through',
        observations: [observation],
      };
      await service.send('POST', `/tickets/${ticket.id}/reports`, { body });
      onChanged();
    });
  return (
    <details>
      <summary>{TICKET_WORDS.enter}</summary>
      <TextField
        label={TICKET_WORDS.enterBy}
        autocomplete="off"
        maxLength={200}
        value={name}
        onValue={setName}
        error={failure?.sentenceFor('/saidBy')}
      />
      <div class="buttons">
        {OUTCOMES.map((outcome) => (
          <button
            key={outcome}
            type="button"
            class="small"
            aria-disabled={isSending}
            onClick={() => enter(outcome)}
          >
            {TICKET_WORDS.enterButton(DRAWING_WORDS.marks[outcome])}
          </button>
        ))}
      </div>
      <FailureLine failure={failure} fields={['/saidBy']} />
    </details>
  );
}
