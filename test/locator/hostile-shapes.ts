// Drawings and evidence that are meant to cost much, by no rate of a real site: fans, combs, bushes, many trunks.
import { FUNCTIONS, type LocateRequest, OUTCOMES } from '#app/locator/index.js';

type Node = LocateRequest['trunks'][number]['nodes'][number];
type Random = () => number;

const node = (id: string, fedFrom: string | null, isBox = false): Node => ({
  id,
  kind: isBox ? 'junction-box' : 'station',
  cableMetres: 15,
  fedFrom,
});

const below = (random: Random, count: number) => Math.floor(random() * count);

function fan(count: number): Node[] {
  return Array.from({ length: count }, (_, i) => node(`S${i}`, null));
}

function tee(count: number): Node[] {
  return [
    node('T', null, true),
    ...Array.from({ length: count - 1 }, (_, i) => node(`S${i}`, 'T')),
  ];
}

function comb(count: number): Node[] {
  return Array.from({ length: Math.floor(count / 3) }, (_, i) => [
    node(`B${i}`, i === 0 ? null : `B${i - 1}`, true),
    node(`X${i}`, `B${i}`),
    node(`Y${i}`, `B${i}`),
  ]).flat();
}

function bush(count: number, random: Random): Node[] {
  return Array.from({ length: count }, (_, i) =>
    node(`S${i}`, i === 0 ? null : `S${below(random, i)}`),
  );
}

function row(count: number): Node[] {
  return Array.from({ length: count }, (_, i) => node(`S${i}`, i === 0 ? null : `S${i - 1}`));
}

/** Two branches at each node, all equally long. */
function binary(count: number): Node[] {
  return Array.from({ length: count }, (_, i) =>
    node(`S${i}`, i === 0 ? null : `S${Math.floor((i - 1) / 2)}`, i % 3 === 1),
  );
}

const SHAPES: Record<string, (count: number, random: Random) => Node[]> = {
  fan,
  tee,
  comb,
  bush,
  row,
  binary,
};

/** How it is spoken of, by the share of stations that are. */
const EVIDENCE = { none: 0, little: 0.02, half: 0.5, all: 1 };

export interface HostileShape {
  name: string;
  request: LocateRequest;
}

export function hostileShape(
  shape: string,
  evidence: keyof typeof EVIDENCE,
  given: { nodes: number; trunks: number; years: number; explanations: number; callers: number },
  random: Random,
): HostileShape {
  const trunks = Array.from({ length: given.trunks }, (_, t) => ({
    id: `T${t}`,
    nodes: SHAPES[shape]!(Math.floor(given.nodes / given.trunks), random),
  }));
  const stations = trunks.flatMap(({ id, nodes }) =>
    nodes.filter(({ kind }) => kind === 'station').map((one) => ({ trunk: id, node: one.id })),
  );
  const asked = stations.filter(() => random() < EVIDENCE[evidence]).slice(0, 5000);
  const observations = asked.map((at) => ({
    ...at,
    function: FUNCTIONS[below(random, FUNCTIONS.length)]!,
    outcome: OUTCOMES[below(random, OUTCOMES.length)]!,
    informant:
      given.callers > 0
        ? { id: `p${below(random, given.callers)}`, kind: 'office' as const }
        : { kind: 'technician' as const },
  }));
  const { years, explanations, ...rest } = given;
  return {
    name: `${shape}, ${evidence} told, ${years} years, ${JSON.stringify(rest)}, ${explanations} explanations`,
    request: { trunks, exposureDays: years * 365, observations, explanations },
  };
}

/** Shapes drawn at random. */
export function* hostileShapes(count: number, random: Random): Generator<HostileShape> {
  const pick = <T>(list: readonly T[]): T => list[below(random, list.length)]!;
  for (let i = 0; i < count; i++)
    yield hostileShape(
      pick(Object.keys(SHAPES)),
      pick(Object.keys(EVIDENCE) as (keyof typeof EVIDENCE)[]),
      {
        nodes: pick([10, 150, 700, 2500, 5000]),
        trunks: pick([1, 1, 3, 60]),
        years: pick([0, 0.25, 3, 100]),
        explanations: pick([1, 10, 1000]),
        callers: pick([0, 0, 3, 400]),
      },
      random,
    );
}
