import { DRAWING_WORDS, percent, stationName } from './drawing-words.js';
import {
  type DrawnCable,
  type DrawnChances,
  type DrawnStation,
  type NodeFacts,
  type SaidHere,
  trunkFacts,
} from './drawn-facts.js';

interface DrawingTableProps {
  cables: readonly DrawnCable[];
  said: readonly SaidHere[];
  chances?: DrawnChances | undefined;
}

/** The drawing's words and numbers, in cable order. */
export function DrawingTable({ cables, said, chances }: DrawingTableProps) {
  const hasGroups = cables.some(({ nodes }) => nodes.some(({ groups = [] }) => groups.length > 0));
  return (
    <>
      {cables.map((cable) => {
        const facts = trunkFacts(cable, said, chances);
        return (
          <div
            class="scrolls"
            key={cable.trunk}
            tabIndex={0}
            role="region"
            aria-label={DRAWING_WORDS.tableOf(cable.trunk)}
          >
            <table>
              <caption>{DRAWING_WORDS.trunk(cable.trunk)}</caption>
              <thead>
                <tr>
                  <th scope="col">{DRAWING_WORDS.place}</th>
                  <th scope="col">{DRAWING_WORDS.fedFrom}</th>
                  <th scope="col">{DRAWING_WORDS.said}</th>
                  {hasGroups && <th scope="col">{DRAWING_WORDS.groups}</th>}
                  <th scope="col" class="number">
                    {DRAWING_WORDS.metres}
                  </th>
                  {chances && (
                    <th scope="col" class="number">
                      {DRAWING_WORDS.cableAtFault}
                    </th>
                  )}
                  {chances && (
                    <th scope="col" class="number">
                      {DRAWING_WORDS.itselfAtFault}
                    </th>
                  )}
                </tr>
              </thead>
              <tbody>
                {cable.nodes.map((station) => (
                  <PlaceRow
                    key={station.node}
                    {...{ station, cable, said, hasGroups }}
                    facts={chances && facts.nodes.get(station.node)}
                  />
                ))}
              </tbody>
            </table>
          </div>
        );
      })}
    </>
  );
}

interface PlaceRowProps {
  station: DrawnStation;
  cable: DrawnCable;
  said: readonly SaidHere[];
  hasGroups: boolean;
  /** Undefined: nothing is thought of it. */
  facts: NodeFacts | undefined;
}

function PlaceRow({ station, cable, said, hasGroups, facts }: PlaceRowProps) {
  const here = said.filter(({ trunk, node }) => trunk === cable.trunk && node === station.node);
  return (
    <tr>
      <th scope="row">{stationName(station)}</th>
      <td>{nameOfFeeder(cable, station.fedFrom)}</td>
      <td>{saidInWords(here)}</td>
      {hasGroups && <td>{(station.groups ?? []).join(', ')}</td>}
      <td class="number">{station.cableMetres}</td>
      {facts && <td class="number">{percent(facts.spanChance)}</td>}
      {facts && <td class="number">{percent(facts.ownChance)}</td>}
    </tr>
  );
}

function nameOfFeeder({ nodes }: DrawnCable, fedFrom: string | null): string {
  const feeder = nodes.find(({ node }) => node === fedFrom);
  return feeder === undefined ? DRAWING_WORDS.theHeadEnd : stationName(feeder);
}

function saidInWords(here: readonly SaidHere[]): string {
  return here
    .map((one) => `${DRAWING_WORDS.functions[one.function]} ${DRAWING_WORDS.marks[one.outcome]}`)
    .join(', ');
}
