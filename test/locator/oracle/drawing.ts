// Section 10: other drawings of a trunk than the one sent, each weighed by adding up all of its worlds.
import { falseAlarmRatioOf, isQuiet, likelihoodOf, settings, trunkEvidence } from './evidence.js';
import type { OracleNode, OracleRequest } from './request.js';
import { enumerate, oracleTrunks } from './trunks.js';

export interface OracleAlternative {
  kind: 'branch' | 'end' | 'swapped';
  trunk: string;
  /** The nodes at the borders; a border that nothing told of is a range, from the first node to the last. */
  from: [first: string, last: string];
  to: [first: string, last: string];
  prior: number;
}

interface Instance extends Pick<OracleAlternative, 'kind'> {
  from: string;
  to: string;
  /** How many nodes it moves. */
  size: number;
  nodes: OracleNode[];
  /** Instances that nothing told of tells apart have the same; null where nothing tells them from the drawing. */
  sameAs: string | null;
}

type Told = (id: string) => Map<string, string>;

/** What was told of each node: of each function its outcomes, as a text. */
function toldOf(request: OracleRequest, trunk: string): Told {
  const texts = new Map<string, Map<string, string>>();
  const told = (request.observations ?? []).filter((one) => one.trunk === trunk);
  for (const { node, function: name } of told) {
    const outcomes = told.filter((one) => one.node === node && one.function === name);
    const text = [...new Set(outcomes.map(({ outcome }) => outcome))].sort().join();
    texts.set(node, (texts.get(node) ?? new Map<string, string>()).set(name, text));
  }
  return (id) => texts.get(id) ?? new Map<string, string>();
}

/** By the functions told of both; where there are none, by whether there is any trouble. */
function differ(a: Map<string, string>, b: Map<string, string>): boolean {
  const common = [...a.keys()].filter((name) => b.has(name));
  const hasTrouble = (told: Map<string, string>) => [...told.values()].some((t) => t !== 'works');
  return common.length > 0
    ? common.some((name) => a.get(name) !== b.get(name))
    : hasTrouble(a) !== hasTrouble(b);
}

/** The nodes with every feeder named. */
function fed(nodes: readonly OracleNode[]): (OracleNode & { fedFrom: string | null })[] {
  return nodes.map((node, n) => ({
    ...node,
    fedFrom: node.fedFrom === undefined ? (nodes[n - 1]?.id ?? null) : node.fedFrom,
  }));
}

/** Unbranched stretches: each node but the first is the only one that the node before it feeds. */
function stretchesOf(nodes: readonly (OracleNode & { fedFrom: string | null })[]): string[][] {
  const below = (id: string | null) => nodes.filter((node) => node.fedFrom === id);
  const isFirst = (node: { fedFrom: string | null }) =>
    node.fedFrom === null || below(node.fedFrom).length > 1;
  return nodes.filter(isFirst).map((first) => {
    const stretch = [first.id];
    for (let next = below(first.id); next.length === 1; next = below(next[0]!.id))
      stretch.push(next[0]!.id);
    return stretch;
  });
}

/** What is told around the border before place `at`: which gap of told nodes it lies in, and whether the two differ. */
function borderAt(stretch: readonly string[], at: number, told: Told): string | null {
  const before = stretch.slice(0, at).findLast((id) => told(id).size > 0);
  const after = stretch.slice(at).find((id) => told(id).size > 0);
  if (before === undefined || after === undefined) return null;
  return differ(told(before), told(after)) ? `${before}..${after}` : null;
}

function runInstances(
  kind: 'branch' | 'end',
  nodes: readonly (OracleNode & { fedFrom: string | null })[],
  told: Told,
): Instance[] {
  const refeed = (changes: Record<string, string>) =>
    nodes.map((node) => ({ ...node, fedFrom: changes[node.id] ?? node.fedFrom }));
  return stretchesOf(nodes).flatMap((stretch) =>
    stretch.flatMap((_, i) =>
      stretch.flatMap((__, j): Instance[] => {
        if (i < 1 || j < i || j > stretch.length - 2) return [];
        const [before, after] = [stretch[i - 1]!, stretch[j + 1]!];
        const borders = [borderAt(stretch, i, told), borderAt(stretch, j + 1, told)];
        const isTold = stretch.slice(i, j + 1).some((id) => told(id).size > 0);
        const changes =
          kind === 'branch'
            ? { [after]: before }
            : { [after]: before, [stretch[i]!]: stretch[stretch.length - 1]! };
        return [
          {
            kind,
            from: stretch[i]!,
            to: stretch[j]!,
            size: j - i + 1,
            nodes: refeed(changes),
            sameAs: isTold && !borders.includes(null) ? borders.join(' ') : null,
          },
        ];
      }),
    ),
  );
}

function swapInstances(
  nodes: readonly (OracleNode & { fedFrom: string | null })[],
  told: Told,
): Instance[] {
  return nodes.flatMap((second): Instance[] => {
    const first = nodes.find(({ id }) => id === second.fedFrom);
    if (first?.kind !== 'station' || second.kind !== 'station') return [];
    const name = (id: string) => (id === first.id ? second.id : id === second.id ? first.id : id);
    const swapped = nodes.map((place): OracleNode => {
      const unit = nodes.find(({ id }) => id === name(place.id))!;
      return {
        ...place,
        id: unit.id,
        groups: unit.groups,
        isOut: unit.isOut,
        lacks: unit.lacks,
        fedFrom: place.fedFrom === null ? null : name(place.fedFrom),
      };
    });
    const [a, b] = [told(first.id), told(second.id)];
    const bothTold = a.size > 0 && b.size > 0;
    const sameAs = bothTold && differ(a, b) ? `${first.id} ${second.id}` : null;
    return [{ kind: 'swapped', from: first.id, to: second.id, size: 2, nodes: swapped, sameAs }];
  });
}

/** Per setting, P(told of a trunk | setting, drawing) and the part of it in quiet worlds. */
function masses(request: OracleRequest, trunkId: string, nodes: OracleNode[]): Float64Array[] {
  const drawn = {
    ...request,
    trunks: request.trunks.map((trunk) => (trunk.id === trunkId ? { ...trunk, nodes } : trunk)),
  };
  const all = settings(request);
  const trunk = oracleTrunks(drawn).find(({ id }) => id === trunkId)!;
  const evidence = trunkEvidence(drawn, trunk, all);
  const [whole, quiet] = [new Float64Array(all.length), new Float64Array(all.length)];
  enumerate(trunk, (now) => {
    for (let s = 0; s < all.length; s++) {
      const mass = now.prior * likelihoodOf(evidence, s, now);
      if (mass === 0) continue;
      whole[s]! += mass;
      if (isQuiet(evidence, s, now)) quiet[s]! += mass;
    }
  });
  return [whole, quiet];
}

interface Weighed extends OracleAlternative {
  masses: Float64Array[];
}

function alternativesOf(request: OracleRequest, trunkId: string, share: number): Weighed[] {
  const nodes = fed(request.trunks.find(({ id }) => id === trunkId)!.nodes);
  const told = toldOf(request, trunkId);
  return [
    runInstances('branch', nodes, told),
    runInstances('end', nodes, told),
    swapInstances(nodes, told),
  ].flatMap((instances) => {
    const classes = new Map<string, Instance[]>();
    for (const instance of instances)
      if (instance.sameAs !== null)
        classes.set(instance.sameAs, [...(classes.get(instance.sameAs) ?? []), instance]);
    return [...classes.values()].map((alike): Weighed => {
      // The one that moves the fewest nodes stands for all; every other has a border further out.
      const bySize = [...alike].sort((a, b) => a.size - b.size);
      const [least, most] = [bySize[0]!, bySize[bySize.length - 1]!];
      return {
        kind: least.kind,
        trunk: trunkId,
        from: [most.from, least.from],
        to: [least.to, most.to],
        prior: (share / 3 / instances.length) * alike.length,
        masses: masses(request, trunkId, least.nodes),
      };
    });
  });
}

/** P(every trunk is as drawn | evidence) and that of each alternative, the share of all deviations given by trunk. */
export function oracleDrawing(
  request: OracleRequest,
  shareOf: (trunk: string) => number = () => 0.02,
): { asDrawn: number; alternatives: (OracleAlternative & { probability: number })[] } {
  const all = settings(request);
  const trunks = request.trunks.map(({ id, nodes }) => {
    const alternatives = alternativesOf(request, id, shareOf(id));
    const rest = alternatives.reduce((left, { prior }) => left - prior, 1);
    const drawn = { prior: rest, masses: masses(request, id, nodes) };
    return { drawn, alternatives };
  });
  const lessQuiet = 1 - falseAlarmRatioOf(request);
  /** What the evidence weighs, each trunk drawn as one of these. */
  const mass = (options: { prior: number; masses: Float64Array[] }[][]) =>
    all.reduce((sum, { prior }, s) => {
      const [whole, quiet] = [0, 1].map((which) =>
        options.reduce(
          (product, list) =>
            product * list.reduce((part, one) => part + one.prior * one.masses[which]![s]!, 0),
          prior,
        ),
      );
      return sum + whole! - lessQuiet * quiet!;
    }, 0);
  const any = trunks.map(({ drawn, alternatives }) => [drawn, ...alternatives]);
  const total = mass(any);
  return {
    asDrawn: mass(trunks.map(({ drawn }) => [drawn])) / total,
    alternatives: trunks.flatMap(({ alternatives }, t) =>
      alternatives.map(({ masses: own, ...alternative }) => ({
        ...alternative,
        probability:
          mass(any.map((list, other) => (other === t ? [{ ...alternative, masses: own }] : list))) /
          total,
      })),
    ),
  };
}
