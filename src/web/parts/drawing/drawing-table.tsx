import { FUNCTION_LABELS, MARK_WORDS, percent, stationName } from './drawing-words.js';
import { type DrawnCable, type DrawnChances, type SaidHere, trunkFacts } from './drawn-facts.js';

interface DrawingTableProps {
  cables: readonly DrawnCable[];
  said: readonly SaidHere[];
  chances?: DrawnChances | undefined;
}

/** The drawing's words and numbers, in cable order. */
export function DrawingTable({ cables, said, chances }: DrawingTableProps) {
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
            aria-label={`Table of trunk ${cable.trunk}`}
          >
            <table>
              <caption>Trunk {cable.trunk}</caption>
              <thead>
                <tr>
                  <th scope="col">Place</th>
                  <th scope="col">Fed from</th>
                  <th scope="col">Said</th>
                  <th scope="col" class="number">
                    Cable into it, m
                  </th>
                  {chances && (
                    <th scope="col" class="number">
                      Cable at fault
                    </th>
                  )}
                  {chances && (
                    <th scope="col" class="number">
                      Itself at fault
                    </th>
                  )}
                </tr>
              </thead>
              <tbody>
                {cable.nodes.map((station) => {
                  const known = facts.nodes.get(station.node);
                  const here = said.filter(
                    ({ trunk, node }) => trunk === cable.trunk && node === station.node,
                  );
                  return (
                    <tr key={station.node}>
                      <th scope="row">{stationName(station)}</th>
                      <td>{nameOfFeeder(cable, station.fedFrom)}</td>
                      <td>{saidInWords(here)}</td>
                      <td class="number">{station.cableMetres}</td>
                      {chances && <td class="number">{percent(known?.spanChance ?? 0)}</td>}
                      {chances && <td class="number">{percent(known?.ownChance ?? 0)}</td>}
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </div>
        );
      })}
    </>
  );
}

function nameOfFeeder({ nodes }: DrawnCable, fedFrom: string | null): string {
  const feeder = nodes.find(({ node }) => node === fedFrom);
  return feeder === undefined ? 'the head-end' : stationName(feeder);
}

function saidInWords(here: readonly SaidHere[]): string {
  return here
    .map((one) => `${FUNCTION_LABELS[one.function]} ${MARK_WORDS[one.outcome]}`)
    .join(', ');
}
