import { FunctionMarks, NodeMark } from './node-mark.js';
import type { DrawnStation, NodeFacts } from './drawn-facts.js';
import { nodeInWords, ownInWords, stationName } from './drawing-words.js';
import { labelLines } from './label-lines.js';
import type { PlacedNode } from '#app/drawing/place-trunk.js';

interface StationMarkProps {
  placed: PlacedNode;
  station: DrawnStation;
  facts: NodeFacts;
  isUpright: boolean;
  isChosen: boolean;
  /** Whether the Tab key comes here. */
  isStop: boolean;
  isChanged: boolean;
  onChoose: (() => void) | undefined;
}

/** A node with its name, its marks, and the chance that it is itself at fault. */
export function StationMark({ placed, station, facts, isUpright, ...rest }: StationMarkProps) {
  const { isChosen, isStop, isChanged, onChoose } = rest;
  const lines = labelLines(stationName(station), isUpright ? 26 : 11);
  const own = ownInWords(facts);
  return (
    <g role="listitem">
      <g
        role={onChoose ? 'button' : 'img'}
        class={`node ${isChosen ? 'chosen' : ''}`}
        data-node={placed.node}
        tabindex={isStop ? 0 : -1}
        aria-label={nodeInWords(station, facts)}
        aria-pressed={onChoose ? isChosen : undefined}
        transform={`translate(${placed.x} ${placed.y})`}
        onClick={onChoose}
      >
        {isUpright ? (
          <rect x={-20} y={-22} width={250} height={44} class="node-area" />
        ) : (
          <rect x={-38} y={-26} width={76} height={84} class="node-area" />
        )}
        <circle r={14} class="node-ground" />
        {isChanged && <circle r={16} class="mark-stroke" stroke-dasharray="2 3" stroke-width={2} />}
        <NodeMark mark={shapeOf(station, facts)} outline={2 + facts.ownChance * 6} />
        {facts.functions.length > 1 && <FunctionMarks functions={facts.functions} />}
        <text
          class={facts.mark === 'fails' ? 'drawing-label strong' : 'drawing-label'}
          text-anchor={isUpright ? 'start' : 'middle'}
        >
          {[...lines, ...(own === '' ? [] : [own])].map((line, i) => (
            <tspan
              key={i}
              x={isUpright ? 22 : 0}
              y={isUpright ? 5 + (i - (lines.length - 1) / 2) * 15 : 28 + i * 14}
            >
              {line}{' '}
            </tspan>
          ))}
        </text>
      </g>
    </g>
  );
}

function shapeOf(station: DrawnStation, facts: NodeFacts) {
  if (station.isOut) return 'out';
  if (station.kind === 'junction-box') return 'box';
  return facts.expected === 'fails' ? 'expected' : facts.mark;
}
