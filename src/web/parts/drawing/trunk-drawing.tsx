import { useId, useMemo, useRef, useState } from 'preact/hooks';
import { CableSpan, Stretches } from './cable-span.js';
import { DrawingLegend, GroupLegend, useRungGroup } from './drawing-legend.js';
import { DrawingTable } from './drawing-table.js';
import { DRAWING_WORDS } from './drawing-words.js';
import {
  type DrawnCable,
  type DrawnChances,
  type DoubtedHere,
  type FoundHere,
  type SaidHere,
  type SaidOutcome,
  type TrunkFacts,
  trunkFacts,
} from './drawn-facts.js';
import {
  type LaidTrunk,
  layLying,
  layUpright,
  stepAlong,
  type CableStep,
} from '#app/drawing/lay-trunk.js';
import { LYING, type PlacedTrunk, placeTrunk, UPRIGHT } from '#app/drawing/place-trunk.js';
import { HeadEndMark } from './head-end-mark.js';
import { useWidth } from '../use-width.js';
import { StationMark } from './station-mark.js';

export interface NodeAt {
  trunk: string;
  node: string;
}

interface TrunkDrawingProps {
  cables: readonly DrawnCable[];
  said: readonly SaidHere[];
  chances?: DrawnChances | undefined;
  /** Nodes of which something is supposed or entered and not sent yet. */
  changed?: readonly NodeAt[];
  /** What does not fit together, at its node. */
  doubted?: readonly DoubtedHere[];
  /** What was ever found at its nodes. */
  found?: readonly FoundHere[];
  chosen?: NodeAt | undefined;
  onChoose?: (node: NodeAt) => void;
  /** Sets what a node is by a letter: h heard, s silent, w weak; null by Backspace. */
  onLetter?: (node: NodeAt, outcome: SaidOutcome | null) => void;
}

/** The trunks of a site from the head-end outward, with what was said and what is thought of each place. */
export function TrunkDrawing(props: TrunkDrawingProps) {
  const [isTable, setTable] = useState(false);
  const { ref, width } = useWidth();
  const id = useId();
  const rung = useRungGroup(props.cables);
  const { changed = [], doubted = [] } = props;
  const inGroup = nodesIn(props.cables, rung.group);
  const onKey = (event: KeyboardEvent) => {
    if (event.key !== 't' || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    setTable(!isTable);
  };
  return (
    <div class="drawing" ref={ref} onKeyDown={onKey}>
      {isTable ? (
        <DrawingTable {...props} />
      ) : (
        props.cables.map((cable) => (
          <CableDrawing
            key={cable.trunk}
            id={`${id}${cable.trunk}`}
            {...props}
            {...{ cable, width, letters: rung.letters, changed: [...changed, ...inGroup] }}
          />
        ))
      )}
      {!isTable && <GroupLegend {...rung} />}
      <div class="drawing-foot">
        {!isTable && (
          <DrawingLegend hasChances={props.chances !== undefined} hasDoubts={doubted.length > 0} />
        )}
        <button
          type="button"
          class="small no-print"
          aria-keyshortcuts="t"
          onClick={() => setTable(!isTable)}
        >
          {isTable ? DRAWING_WORDS.asDrawing : DRAWING_WORDS.asTable}
        </button>
      </div>
    </div>
  );
}

function nodesIn(cables: readonly DrawnCable[], group: string | undefined): NodeAt[] {
  if (group === undefined) return [];
  return cables.flatMap(({ trunk, nodes }) =>
    nodes.filter(({ groups = [] }) => groups.includes(group)).map(({ node }) => ({ trunk, node })),
  );
}

/** Narrower than this the cable goes down the page. */
const UPRIGHT_BELOW = 560;

interface CableDrawingProps extends TrunkDrawingProps {
  cable: DrawnCable;
  width: number;
  id: string;
  letters: ReadonlyMap<string, string>;
}

function CableDrawing({ cable, width, id, said, chances, ...rest }: CableDrawingProps) {
  const { changed = [], doubted = [], found = [], letters, chosen, onChoose, onLetter } = rest;
  const isUpright = width < UPRIGHT_BELOW;
  const facts = useMemo(() => trunkFacts(cable, said, chances), [cable, said, chances]);
  const laid = useMemo(() => layOut(cable, width), [cable, width]);
  const placed = useMemo(
    () => placeTrunk(laid, isUpright ? UPRIGHT : LYING, isUpright),
    [laid, isUpright],
  );
  const svg = useRef<SVGSVGElement>(null);
  const here = chosen?.trunk === cable.trunk ? chosen.node : undefined;
  const choose = (node: string) => onChoose?.({ trunk: cable.trunk, node });
  const onKey = (event: KeyboardEvent) =>
    pressKey(event, {
      walk: (node, key) => walkTo(svg.current, laid, node, stepOf(key, isUpright)),
      choose,
      set: onLetter && ((node, outcome) => onLetter({ trunk: cable.trunk, node }, outcome)),
    });
  return (
    <figure class="cable">
      <figcaption id={id}>
        {DRAWING_WORDS.trunk(cable.trunk)}
        {cable.name !== '' && cable.name !== cable.trunk && <span>, {cable.name}</span>}
      </figcaption>
      <svg
        ref={svg}
        role="group"
        aria-labelledby={id}
        viewBox={`0 0 ${placed.width} ${placed.height}`}
        width={placed.width}
        height={placed.height}
        onKeyDown={onKey}
      >
        {placed.nodes.map((node) => (
          <CableSpan
            key={node.node}
            placed={node}
            chance={facts.nodes.get(node.node)?.spanChance ?? 0}
            isBracketed={facts.stretches.some(({ into }) => into.includes(node.node))}
            onChoose={onChoose && (() => choose(node.node))}
          />
        ))}
        <Stretches placed={placed} stretches={facts.stretches} isUpright={isUpright} />
        <HeadEndMark
          {...placed.port}
          headEnd={facts.headEndChance}
          port={facts.portChance}
          isUpright={isUpright}
        />
        <Stations
          {...{ cable, placed, facts, isUpright, changed, doubted, found, letters, here }}
          choose={onChoose && choose}
        />
      </svg>
    </figure>
  );
}

interface StationsProps {
  cable: DrawnCable;
  placed: PlacedTrunk;
  facts: TrunkFacts;
  isUpright: boolean;
  changed: readonly NodeAt[];
  doubted: readonly DoubtedHere[];
  found: readonly FoundHere[];
  letters: ReadonlyMap<string, string>;
  here: string | undefined;
  choose: ((node: string) => void) | undefined;
}

/** The nodes, a list in cable order with one tab stop. */
function Stations({ cable, placed, facts, isUpright, here, choose, ...rest }: StationsProps) {
  const { changed, doubted, found, letters } = rest;
  const stations = new Map(cable.nodes.map((one) => [one.node, one]));
  const stop = here ?? placed.nodes[0]?.node;
  return (
    <g role="list">
      {placed.nodes.map((node) => {
        const station = stations.get(node.node);
        const known = facts.nodes.get(node.node);
        if (station === undefined || known === undefined) return null;
        return (
          <StationMark
            key={node.node}
            {...{ placed: node, station, facts: known, isUpright }}
            isChosen={here === node.node}
            isStop={stop === node.node}
            isChanged={changed.some((one) => isAt(one, cable.trunk, node.node))}
            doubts={doubted
              .filter((one) => isAt(one, cable.trunk, node.node))
              .map(({ words }) => words)}
            found={found.find((one) => isAt(one, cable.trunk, node.node))}
            letters={(station.groups ?? []).map((group) => letters.get(group) ?? '')}
            onChoose={choose && (() => choose(node.node))}
          />
        );
      })}
    </g>
  );
}

function isAt(one: NodeAt, trunk: string, node: string): boolean {
  return one.trunk === trunk && one.node === node;
}

interface KeyActs {
  /** Whether the key is one that walks. */
  walk: (node: string, key: string) => boolean;
  choose: (node: string) => void;
  set: ((node: string, outcome: SaidOutcome | null) => void) | undefined;
}

function pressKey(event: KeyboardEvent, { walk, choose, set }: KeyActs): void {
  const node = (event.target as Element).getAttribute('data-node');
  if (node === null || event.ctrlKey || event.metaKey || event.altKey) return;
  const { key } = event;
  if (key === 'Enter' || key === ' ') choose(node);
  else if (set !== undefined && Object.hasOwn(LETTERS, key)) set(node, LETTERS[key] ?? null);
  else if (!walk(node, key)) return;
  event.preventDefault();
}

const LETTERS: Readonly<Record<string, SaidOutcome | null>> = {
  h: 'works',
  s: 'fails',
  w: 'weak',
  Backspace: null,
  Delete: null,
};

function stepOf(key: string, isUpright: boolean): CableStep | undefined {
  const steps: Record<string, CableStep> = isUpright
    ? { ArrowDown: 'on', ArrowUp: 'back', ArrowRight: 'into-branch', ArrowLeft: 'out-of-branch' }
    : { ArrowRight: 'on', ArrowLeft: 'back', ArrowDown: 'into-branch', ArrowUp: 'out-of-branch' };
  return steps[key];
}

/** Whether there was a step to make, even where the cable ends. */
function walkTo(
  svg: SVGSVGElement | null,
  laid: LaidTrunk,
  node: string,
  step: CableStep | undefined,
): boolean {
  const next = step && stepAlong(laid, node, step);
  if (next !== undefined) focusNode(svg, next.node);
  return step !== undefined;
}

function focusNode(svg: SVGSVGElement | null, node: string): void {
  const all = svg?.querySelectorAll<SVGGElement>('[data-node]') ?? [];
  [...all].find((one) => one.getAttribute('data-node') === node)?.focus();
}

function layOut(cable: DrawnCable, width: number) {
  if (width < UPRIGHT_BELOW) return layUpright(cable.nodes);
  const { left, right, columnPixels } = LYING;
  return layLying(cable.nodes, 1 + Math.floor((width - left - right) / columnPixels));
}

/** As wide as there is room for; before anything is measured, as wide as paper. */
