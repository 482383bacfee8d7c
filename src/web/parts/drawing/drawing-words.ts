import type { FunctionName } from '#app/locator/index.js';
import { type DrawnStation, LEAST_SHOWN, type NodeFacts, type ShownMark } from './drawn-facts.js';

export const MARK_WORDS: Readonly<Record<ShownMark, string>> = {
  unsaid: 'nothing said',
  works: 'heard',
  weak: 'weak',
  fails: 'silent',
};

export const FUNCTION_LABELS: Readonly<Record<FunctionName, string>> = {
  announcement: 'announcement',
  bell: 'bell',
  music: 'music',
  lamp: 'lamp',
  'room-call': 'call to one room',
  talkback: 'room speaks to the office',
};

export const HEAD_END = 'Head-end';

export const LEGEND: readonly {
  mark: ShownMark | 'box' | 'out' | 'expected' | 'doubted';
  words: string;
}[] = [
  { mark: 'works', words: 'heard' },
  { mark: 'fails', words: 'silent' },
  { mark: 'weak', words: 'weak' },
  { mark: 'unsaid', words: 'nothing said' },
  { mark: 'expected', words: 'nothing said, silent if the first cause is true' },
  { mark: 'box', words: 'junction box' },
  { mark: 'out', words: 'bridged over or taken out' },
  { mark: 'doubted', words: 'what is said there does not fit together' },
];

export const THICKNESS =
  'The thicker the cable, the likelier the trouble is there. Several things may be faulty at once, so the numbers may add to more than 100 %.';

export function stationName({ room, node, kind }: DrawnStation): string {
  return room ?? (kind === 'junction-box' ? `Junction box ${node}` : `Unit ${node}`);
}

/** "83 %", "<1 %" where there is a little, "" where there is nothing. */
export function percent(chance: number): string {
  const whole = Math.round(chance * 100);
  if (whole >= 1) return `${whole} %`;
  return chance > 0 ? '<1 %' : '';
}

export const GROUPS_WORDS = {
  legend: 'Groups',
  column: 'Groups',
  ring: '(ring its rooms)',
  isIn: (groups: readonly string[]) =>
    groups.length === 1 ? ` In the group ${groups[0]}.` : ` In the groups ${groups.join(', ')}.`,
};

/** A node as it is read out: "Room 12: silent. Cable into it 42 %." `more`: what else is said of it. */
export function nodeInWords(
  station: DrawnStation,
  facts: NodeFacts,
  more: readonly string[] = [],
): string {
  const said = station.isOut
    ? 'bridged over or taken out'
    : facts.functions.length > 0
      ? facts.functions
          .map(({ name, outcome }) => `${FUNCTION_LABELS[name]} ${MARK_WORDS[outcome]}`)
          .join(', ')
      : facts.mark === 'unsaid' && station.kind === 'junction-box'
        ? ''
        : MARK_WORDS[facts.mark];
  const expected = facts.expected === null ? '' : `, expected ${MARK_WORDS[facts.expected]}`;
  const own = ownInWords(facts);
  const name = `${stationName(station)}${own && ` ${own}`}`;
  const cable = facts.spanChance >= 0.01 ? ` Cable into it ${percent(facts.spanChance)}.` : '';
  const { groups = [] } = station;
  const group = groups.length === 0 ? '' : GROUPS_WORDS.isIn(groups);
  const besides = more.map((words) => ` ${words}`).join('');
  return `${name}${said && `: ${said}`}${expected}.${cable}${group}${besides}`;
}

/** That something of the node's own is suspected; as it stands below its name. */
export function ownInWords({ ownChance }: NodeFacts): string {
  return ownChance >= LEAST_SHOWN ? `itself ${percent(ownChance)}` : '';
}
