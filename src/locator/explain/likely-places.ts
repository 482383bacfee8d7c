/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LikelyPlace } from '../posterior/locate-result.js';
import { comparePlaces, sortLargestFirst } from '../posterior/order.js';
import type { Chosen } from './chosen.js';
import { contextWeights } from './context-weights.js';
import type { InformativeNode } from './informative-nodes.js';
import { feedOf, viewOf, type LabelledSite } from './local-cases.js';
import { type Setting, settingOf, stationFault, weightsAbove } from './place-setting.js';
import type { QuietPart } from './quiet-part.js';
import { isRaised } from './raised.js';
import { type PlaceGiven, runPlaces } from './run-places.js';

/** No more places are named with one explanation. */
export const MOST_LIKELY_PLACES = 12;

/** What is told of places: all of them, or those alone that can be worth naming. */
interface Wanted {
  readonly onlyQuiet: boolean;
  readonly onlyRaised: boolean;
}

const RAISED: Wanted = { onlyQuiet: false, onlyRaised: true };
const ALL: Wanted = { onlyQuiet: false, onlyRaised: false };
const ALL_QUIET: Wanted = { onlyQuiet: true, onlyRaised: false };

interface Remembered {
  readonly weights: Float64Array;
  readonly places: PlaceGiven[];
}

/** Weights of contexts under which one informative node was asked the same, no more of them. */
const MOST_REMEMBERED = 8;

/** What is asked of an informative node. */
const ASKED = { raised: 0, runs: 1, raisedRuns: 2, station: 3, quietStation: 4 };
const KINDS_ASKED = 5;

/** Normalised weights that differ by less change no digit that is told. */
const ALIKE = 1e-13;

function areAlike(one: Float64Array, other: Float64Array): boolean {
  for (let context = 0; context < one.length; context++)
    if (Math.abs(one[context]! - other[context]!) > ALIKE) return false;
  return true;
}

function recalled(before: readonly Remembered[], weights: Float64Array): PlaceGiven[] | undefined {
  for (const one of before) if (areAlike(one.weights, weights)) return one.places;
  return undefined;
}

function remember(before: Remembered[], weights: Float64Array, places: PlaceGiven[]): PlaceGiven[] {
  if (before.length === MOST_REMEMBERED) before.pop();
  before.unshift({ weights, places });
  return places;
}

function onlyRaised(places: readonly PlaceGiven[]): PlaceGiven[] {
  return places.filter(({ probability, prior }) => isRaised(probability, prior));
}

/** Places given explanations of one site: what explanations have in common is worked out once. */
export class LikelyPlaces {
  /** By state of an informative node and by what is asked of it and the states below it, as a number or a text. */
  private readonly known = new Map<object, Map<number | string, Remembered[]>>();
  private last: { h: number; chosen: Chosen; onlyQuiet: boolean; setting: Setting } | null = null;

  constructor(
    private readonly site: LabelledSite,
    private readonly informativeNodes: readonly InformativeNode[],
    private readonly quietPart: QuietPart,
  ) {}

  of(chosen: Chosen, headEnd: number): LikelyPlace[] {
    const nodes = this.informativeNodes;
    const weights = contextWeights(nodes, chosen);
    const quiet = this.quietPart.of(chosen);
    const quietWeights = quiet && contextWeights(nodes, quiet.chosen);
    const taken = this.quietPart.taken * (quiet?.share ?? 0);
    const mix = (all: readonly PlaceGiven[], quietly: readonly PlaceGiven[]) =>
      all.map(({ probability, ...place }, i) => ({
        ...place,
        probability: Math.max(0, probability - taken * quietly[i]!.probability) / (1 - taken),
      }));
    const named = nodes.flatMap((_, h): readonly PlaceGiven[] => {
      const own = weights[h]!;
      if (!quiet || !quietWeights) return this.raised(h, chosen, own);
      const quietly = [quiet.chosen, quietWeights[h]!] as const;
      const station = mix(
        this.station(h, chosen, own, ALL),
        this.station(h, ...quietly, ALL_QUIET),
      );
      // Given the states at both ends, quiet changes a run only by what it makes of who is confused.
      if (own.length === 1) return onlyRaised([...station, ...this.runs(h, chosen, own, RAISED)]);
      const runs = mix(this.runs(h, chosen, own, ALL), this.runs(h, ...quietly, ALL_QUIET));
      return onlyRaised([...station, ...runs]);
    });
    if (headEnd > 0) named.push({ place: { kind: 'head-end' }, probability: 1, prior: 0 });
    return sortLargestFirst(
      named,
      ({ probability }) => probability,
      (a, b) => comparePlaces(a.place, b.place),
    )
      .slice(0, MOST_LIKELY_PLACES)
      .map(({ place, probability }) => ({ place, probability }));
  }

  /** The station's and the runs' are one: the last is remembered. */
  private settingOf(h: number, chosen: Chosen, weights: Float64Array, onlyQuiet: boolean): Setting {
    const { last } = this;
    if (last?.h === h && last.chosen === chosen && last.onlyQuiet === onlyQuiet)
      return last.setting;
    const informative = this.informativeNodes[h]!;
    const setting = settingOf(this.site, informative, h, chosen, { weights, onlyQuiet });
    this.last = { h, chosen, onlyQuiet, setting };
    return setting;
  }

  /** An informative node's own place: the port, or its station. */
  private workStation(
    h: number,
    chosen: Chosen,
    weights: Float64Array,
    { onlyQuiet }: Wanted,
  ): PlaceGiven[] {
    const informative = this.informativeNodes[h]!;
    const { kind, trunk, node } = informative;
    if (kind === 'site') return [];
    const { tree, station, portNoOutput, priors } = this.site.trunks[trunk]!;
    const { state } = chosen.states[h]!;
    if (kind === 'port') {
      const place = { kind, trunk: tree.id } as const;
      return [{ place, probability: state > 0 ? 1 : 0, prior: portNoOutput }];
    }
    const own = station[node];
    if (!own) return [];
    const setting = this.settingOf(h, chosen, weights, onlyQuiet);
    const { group } = chosen.graph;
    const [feed, view] = [feedOf(state), viewOf(state)];
    const fed = { site: this.site, informative, group, feed, view, onlyQuiet };
    const { classes, short } = own;
    const faulty = classes.reduce((sum, chance, k) => (k === 0 ? sum : sum + chance), short);
    const prior = priors.beforeLooks(node, 'station') ?? faulty;
    return [
      {
        place: { kind: 'station', trunk: tree.id, node: tree.nodeIds[node]! },
        probability: stationFault(fed, setting),
        prior,
      },
    ];
  }

  /** Of the informative node's own place and its runs those that are worth naming. */
  private raised(h: number, chosen: Chosen, weights: Float64Array): readonly PlaceGiven[] {
    const before = this.recall(h, chosen, ASKED.raised);
    return (
      recalled(before, weights) ??
      remember(
        before,
        weights,
        onlyRaised([
          ...this.station(h, chosen, weights, ALL),
          ...this.runs(h, chosen, weights, RAISED),
        ]),
      )
    );
  }

  private station(h: number, chosen: Chosen, weights: Float64Array, wanted: Wanted): PlaceGiven[] {
    const before = this.recall(h, chosen, wanted.onlyQuiet ? ASKED.quietStation : ASKED.station);
    return (
      recalled(before, weights) ??
      remember(before, weights, this.workStation(h, chosen, weights, wanted))
    );
  }

  private runs(h: number, chosen: Chosen, weights: Float64Array, wanted: Wanted): PlaceGiven[] {
    const before = this.recall(h, chosen, wanted.onlyRaised ? ASKED.raisedRuns : ASKED.runs);
    return (
      recalled(before, weights) ??
      remember(before, weights, this.workRuns(h, chosen, weights, wanted))
    );
  }

  /** What is asked of an informative node hangs on the states there and below it, and on the weights of its contexts, alone. */
  private recall(h: number, { states, edges }: Chosen, asked: number): Remembered[] {
    const state = states[h]!;
    let known = this.known.get(state);
    if (!known) this.known.set(state, (known = new Map<number | string, Remembered[]>()));
    const below = edges[h]!;
    // Nearly always there is one below, and no text has to be made.
    const key =
      below.length > 1
        ? below.reduce((text, { to }) => `${text} ${to}`, `${asked}`)
        : ((below[0]?.to ?? -1) + 1) * KINDS_ASKED + asked;
    let before = known.get(key);
    if (!before) known.set(key, (before = []));
    return before;
  }

  private workRuns(
    h: number,
    chosen: Chosen,
    weights: Float64Array,
    { onlyQuiet, onlyRaised }: Wanted,
  ): PlaceGiven[] {
    if (this.informativeNodes[h]!.kind === 'site') return [];
    const setting = this.settingOf(h, chosen, weights, onlyQuiet);
    const { informative, cases } = setting;
    return setting.runs.flatMap((chances, j) => {
      const run = informative.runs[j] ?? informative.tails[j - informative.runs.length]!;
      const below = informative.below[j];
      const to = below === undefined ? null : chosen.states[below]!.state;
      const above = weightsAbove(setting, j, run.pairs().length);
      const { tree } = this.site.trunks[informative.trunk]!;
      return runPlaces(tree, run, { feeds: cases.feeds, above, to, chances }, onlyRaised);
    });
  }
}
