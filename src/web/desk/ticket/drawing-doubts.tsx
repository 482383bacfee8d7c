import { useMemo, useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import { lastSaid } from '../../parts/drawing/drawn-facts.js';
import { percent } from '../../parts/drawing/drawing-words.js';
import { TrunkDrawing } from '../../parts/drawing/trunk-drawing.js';
import { redrawn } from '../../parts/redrawn.js';
import { asHeadline } from '../desk-words.js';
import type { TicketViewProps } from './ticket-view.js';
import { RECORD_WORDS } from '../words/words.js';

/** Less likely ways are not worth a look at the cable. */
const LEAST_DOUBT = 0.1;

/** Other ways in which the trunk may be laid, drawn beside the drawn one, with the look that tells. */
export function DrawingDoubts({ location, ...rest }: TicketViewProps) {
  const [at, setAt] = useState(0);
  const doubts = (location?.drawingDoubts ?? []).filter((one) => one.probability >= LEAST_DOUBT);
  const doubt = doubts[at] ?? doubts[0];
  if (doubt === undefined) return null;
  return (
    <section>
      <h2>{RECORD_WORDS.mayBeWrong}</h2>
      {doubts.length > 1 && (
        <ChooseField
          label={RECORD_WORDS.whichDoubt}
          value={String(doubts.indexOf(doubt))}
          choices={doubts.map(({ words }, i) => ({ value: String(i), words: asHeadline(words) }))}
          onValue={(value) => setAt(Number(value))}
        />
      )}
      <p>
        {asHeadline(doubt.words)}. {RECORD_WORDS.howToTell(doubt.tellApartWords)}
      </p>
      <BothWays {...rest} doubt={doubt} />
    </section>
  );
}

type Doubt = NonNullable<TicketViewProps['location']>['drawingDoubts'][number];

interface BothWaysProps extends Pick<TicketViewProps, 'record' | 'told' | 'site' | 'ticket'> {
  doubt: Doubt;
}

function BothWays({ record, told, site, ticket, doubt }: BothWaysProps) {
  const { kind, trunk, from, to } = doubt;
  const cable = record.trunks.find((one) => one.trunk === trunk);
  const nodes = useMemo(
    () => cable && redrawn(cable.nodes, { kind, from, to }),
    [cable, kind, from, to],
  );
  const said = useMemo(() => lastSaid(told), [told]);
  if (cable === undefined || nodes === undefined) return <p>{RECORD_WORDS.noSuchRun}</p>;
  const isMoved = ({ node, fedFrom, room }: (typeof nodes)[number], i: number) => {
    const drawn = cable.nodes.find((one) => one.node === node);
    return drawn?.fedFrom !== fedFrom || (kind === 'swapped' && cable.nodes[i]?.room !== room);
  };
  const moved = nodes.filter(isMoved).map(({ node }) => ({ trunk, node }));
  const query = new URLSearchParams({ trunk, kind, from, to, ticket: String(ticket.number) });
  return (
    <>
      <div class="both-ways">
        <div>
          <h3>{RECORD_WORDS.asDrawn}</h3>
          <TrunkDrawing cables={[cable]} said={said} changed={moved} />
        </div>
        <div>
          <h3>{RECORD_WORDS.asOther(percent(doubt.probability))}</h3>
          <TrunkDrawing cables={[{ ...cable, nodes }]} said={said} changed={moved} />
        </div>
      </div>
      <p>
        <a class="button" href={`/desk/sites/${site.id}/record?${query}`}>
          {RECORD_WORDS.isSo}
        </a>
      </p>
      <p class="hint">{RECORD_WORDS.isSoHint}</p>
    </>
  );
}
