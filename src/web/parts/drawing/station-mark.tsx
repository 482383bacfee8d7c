import { FunctionMarks, GroupTags, NodeMark } from './node-mark.js';
import type { DrawnStation, FoundHere, NodeFacts } from './drawn-facts.js';
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
  /** What was said of it and does not fit together, in words. */
  doubts: readonly string[];
  found: FoundHere | undefined;
  /** Of its groups. */
  letters: readonly string[];
  onChoose: (() => void) | undefined;
}

/** A node with its name, its marks, and the chance that it is itself at fault. */
export function StationMark({ placed, station, facts, isUpright, ...rest }: StationMarkProps) {
  const { isChosen, isStop, isChanged, doubts, found, letters, onChoose } = rest;
  const more = found === undefined ? doubts : [...doubts, found.words];
  const lines = labelLines(stationName(station), isUpright ? 26 : 11);
  const own = ownInWords(facts);
  return (
    <g role="listitem">
      <g
        role={onChoose ? 'button' : 'img'}
        class={`node ${isChosen ? 'chosen' : ''}`}
        data-node={placed.node}
        tabindex={isStop ? 0 : -1}
        aria-label={nodeInWords(station, facts, more)}
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
        {doubts.length > 0 && (
          <g transform="translate(15 -13) scale(0.85)">
            <NodeMark mark="doubted" />
          </g>
        )}
        <NodeLabel
          lines={[...lines, ...(own === '' ? [] : [own])]}
          names={lines.length}
          {...{ facts, isUpright }}
        />
      </g>
      <g transform={`translate(${placed.x} ${placed.y})`} class="beside-node" aria-hidden="true">
        {letters.length > 0 && <GroupTags letters={letters} isUpright={isUpright} />}
        {found !== undefined && (
          <text x={14} y={-11} class="drawing-number">
            {found.times}×
          </text>
        )}
      </g>
    </g>
  );
}

interface NodeLabelProps extends Pick<StationMarkProps, 'facts' | 'isUpright'> {
  lines: readonly string[];
  /** So many of them are its name. */
  names: number;
}

function NodeLabel({ lines, names, facts, isUpright }: NodeLabelProps) {
  return (
    <text
      class={facts.mark === 'fails' ? 'drawing-label strong' : 'drawing-label'}
      text-anchor={isUpright ? 'start' : 'middle'}
    >
      {lines.map((line, i) => (
        <tspan
          key={i}
          x={isUpright ? 22 : 0}
          y={isUpright ? 5 + (i - (names - 1) / 2) * 15 : 28 + i * 14}
        >
          {line}{' '}
        </tspan>
      ))}
    </text>
  );
}

function shapeOf(station: DrawnStation, facts: NodeFacts) {
  if (station.isOut) return 'out';
  if (station.kind === 'junction-box') return 'box';
  return facts.expected === 'fails' ? 'expected' : facts.mark;
}
