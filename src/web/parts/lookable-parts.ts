import { type ComponentName, HEAD_END_MODES, PORT_MODES, type Place } from '#app/locator/index.js';
import { type NameNode, type Words } from '#app/words/index.js';

/** What can be set wrong on a unit, and is looked at from outside. */
export const UNIT_SETTINGS = [
  'volume-down',
  'bell-setting',
  'announcement-setting',
  'music-setting',
] as const;

export type UnitSetting = (typeof UNIT_SETTINGS)[number];

/** Of a drawing, what says which parts there are. */
export interface PartedCable {
  trunk: string;
  nodes: readonly {
    node: string;
    kind: 'station' | 'junction-box';
    fedFrom: string | null;
    groups?: readonly string[];
  }[];
}

/** A part that can be looked at, as a look names it. */
export interface LookablePart {
  place: Place;
  part: string;
  /** Of a setting that the head-end has for each group of stations. */
  group: string | null;
  component: ComponentName;
  mode: string | null;
}

type SpanPart = 'junction-out' | 'cable' | 'junction-in';
/** Set for each group by itself. */
const OF_A_GROUP = /^group-/;

/** Everything at a node that can be looked at; without a node, at the head-end. */
export function partsAt(
  cables: readonly PartedCable[],
  at: { trunk: string; node: string } | undefined,
): LookablePart[] {
  if (at === undefined) return partsOfHeadEnd(cables);
  const nodes = cables.find(({ trunk }) => trunk === at.trunk)?.nodes ?? [];
  const own = nodes.find(({ node }) => node === at.node);
  if (own === undefined) return [];
  const spanTo = (to: string, from: string | null): Place => {
    return { kind: 'span', trunk: at.trunk, from, to };
  };
  const span = (place: Place, part: SpanPart): LookablePart => {
    return { place, part, group: null, component: part, mode: null };
  };
  const into = spanTo(own.node, own.fedFrom);
  const outward = nodes.filter(({ fedFrom }) => fedFrom === own.node);
  const unit: Place = { kind: 'station', trunk: at.trunk, node: own.node };
  return [
    span(into, 'junction-in'),
    span(into, 'cable'),
    ...outward.map(({ node }) => span(spanTo(node, own.node), 'junction-out')),
    ...(own.kind === 'station'
      ? ['unit', ...UNIT_SETTINGS].map((part) => ({
          place: unit,
          part,
          group: null,
          component: 'station' as const,
          mode: part === 'unit' ? null : part,
        }))
      : []),
  ];
}

function partsOfHeadEnd(cables: readonly PartedCable[]): LookablePart[] {
  const headEnd = { place: { kind: 'head-end' as const }, component: 'head-end' as const };
  return [
    ...HEAD_END_MODES.flatMap((mode) =>
      (OF_A_GROUP.test(mode) ? groupsOf(cables) : [null]).map((group) => {
        return { ...headEnd, part: mode, mode, group };
      }),
    ),
    ...cables.flatMap(({ trunk, nodes }): LookablePart[] => {
      const port: Place = { kind: 'port', trunk };
      return [
        ...PORT_MODES.map((mode) => {
          return { place: port, part: mode, group: null, component: 'port' as const, mode };
        }),
        ...nodes
          .filter(({ fedFrom }) => fedFrom === null)
          .map(({ node }) => ({
            place: { kind: 'span' as const, trunk, from: null, to: node },
            part: 'junction-out',
            group: null,
            component: 'junction-out' as const,
            mode: null,
          })),
      ];
    }),
  ];
}

function groupsOf(cables: readonly PartedCable[]): string[] {
  const names = cables.flatMap(({ nodes }) => nodes.flatMap(({ groups = [] }) => groups));
  return [...new Set(names)].sort((a, b) => a.localeCompare(b));
}

/** A part as it is called. */
export function partInWords(
  { place, part, group, component }: Omit<LookablePart, 'mode'>,
  { words, settings }: { words: Words; settings: Readonly<Record<UnitSetting, string>> },
  nameNode: NameNode,
): string {
  switch (place.kind) {
    case 'span':
    case 'port':
      return words.component(component, place, nameNode);
    case 'station':
      return UNIT_SETTINGS.includes(part as UnitSetting)
        ? settings[part as UnitSetting]
        : words.place(place, nameNode);
    case 'head-end':
      if (part === component) return words.place(place, nameNode);
      return words.answer.cause(
        { kind: 'head-end', mode: group === null ? part : `${part}:${group}` },
        nameNode,
      );
  }
}
