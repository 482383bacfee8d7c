import { type ComponentName, HEAD_END_MODES, PORT_MODES, type Place } from '#app/locator/index.js';
import { UNIT_SETTINGS, type UnitSetting } from './words-shape.js';
import { type NameNode, type Words } from '#app/words/index.js';
import type { ReadKit } from '../parts/wire.js';

/** A part that can be looked at, as a look names it. */
export interface LookablePart {
  place: Place;
  part: string;
  component: ComponentName;
  mode: string | null;
}

type SpanPart = 'junction-out' | 'cable' | 'junction-in';
/** Of a group, which a look would have to name. */
const OF_A_GROUP = /^group-/;

/** Everything at a node that can be looked at; without a node, at the head-end. */
export function partsAt(
  kit: ReadKit,
  at: { trunk: string; node: string } | undefined,
): LookablePart[] {
  if (at === undefined) return partsOfHeadEnd(kit);
  const nodes = kit.drawing.trunks.find(({ trunk }) => trunk === at.trunk)?.nodes ?? [];
  const own = nodes.find(({ node }) => node === at.node);
  if (own === undefined) return [];
  const spanTo = (to: string, from: string | null): Place => {
    return { kind: 'span', trunk: at.trunk, from, to };
  };
  const span = (place: Place, part: SpanPart): LookablePart => {
    return { place, part, component: part, mode: null };
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
          component: 'station' as const,
          mode: part === 'unit' ? null : part,
        }))
      : []),
  ];
}

function partsOfHeadEnd(kit: ReadKit): LookablePart[] {
  const trunks = kit.drawing.trunks;
  return [
    ...HEAD_END_MODES.filter((mode) => !OF_A_GROUP.test(mode)).map((mode) => ({
      place: { kind: 'head-end' as const },
      part: mode,
      component: 'head-end' as const,
      mode: mode,
    })),
    ...trunks.flatMap(({ trunk, nodes }): LookablePart[] => {
      const [first] = nodes;
      const port: Place = { kind: 'port', trunk };
      return [
        ...PORT_MODES.map((mode) => {
          return { place: port, part: mode, component: 'port' as const, mode };
        }),
        ...(first === undefined
          ? []
          : [
              {
                place: { kind: 'span' as const, trunk, from: null, to: first.node },
                part: 'junction-out',
                component: 'junction-out' as const,
                mode: null,
              },
            ]),
      ];
    }),
  ];
}

/** A part as it is called. */
export function partInWords(
  { place, part, component }: Omit<LookablePart, 'mode'>,
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
      return words.answer.cause({ kind: 'head-end', mode: part }, nameNode);
  }
}
