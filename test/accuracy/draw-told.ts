import { DEFAULT_ERROR_RATES, locate, type LocateRequest } from '#app/locator/index.js';
import { drawFaults, type Faults, MODEL_RATES } from './faults.js';
import { CALLER, goThrough } from './go-through.js';
import { type PlaceChances, placeChances, positionOf, toRequest, truePlaces } from './places.js';
import type { Draw } from './run-row.js';
import { drawSite, type Random, type Site } from './site.js';
import { drawOutcome, type Told } from './tell.js';
import { trueConditions } from './true-conditions.js';
import { type Volunteered, volunteer, volunteersPosterior } from './volunteer.js';

/** Rooms volunteered, and the words put to the locator in one way or another. */
export function drawVolunteered(pose: (site: Site, heard: Volunteered) => LocateRequest): Draw {
  return (random) => {
    const site = drawSite(random);
    const faults = drawFaults(site, MODEL_RATES, random);
    const heard = volunteer(site, trueConditions(site, faults), random);
    if (!heard) return undefined;
    return {
      site,
      evidence: [...heard.reports, ...heard.answers],
      request: pose(site, heard),
      truth: truePlaces(site, faults),
      truePosterior: () => volunteersPosterior(site, heard, DEFAULT_ERROR_RATES.office),
    };
  };
}

/** A caller who listened to one of five rooms, nobody knows which, and said the same of all. */
export const drawCopied: Draw = (random) => {
  const site = drawSite(random);
  const faults = drawFaults(site, MODEL_RATES, random);
  const evidence = goThrough(site, trueConditions(site, faults), random, { copies: true });
  if (!evidence) return undefined;
  return {
    site,
    evidence,
    request: toRequest(site, evidence),
    truth: truePlaces(site, faults),
    truePosterior: () => copiersPosterior(site, evidence),
  };
};

/** One of the caller's words at a time, weighed by how well it goes with the rest. */
function copiersPosterior(site: Site, evidence: Told[]): PlaceChances {
  const copied = evidence.filter(({ informant }) => informant.id === CALLER);
  const answers = copied.map((listened) =>
    locate(
      toRequest(
        site,
        evidence.filter((one) => one === listened || !copied.includes(one)),
      ),
    ),
  );
  const most = Math.max(...answers.map(({ logEvidence }) => logEvidence));
  const weights = answers.map(({ logEvidence }) => Math.exp(logEvidence - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mixed: PlaceChances = new Map();
  answers.forEach((answer, a) => {
    for (const [place, chance] of placeChances(site, answer))
      mixed.set(place, (mixed.get(place) ?? 0) + (weights[a]! / total) * chance);
  });
  return mixed;
}

/**
 * Two sittings: each fault came with chance 1/2 between them, and at least one of them is why a room that was well
 * yesterday fails today. The office told yesterday about 70 % of the rooms that it is asked about today.
 */
export function drawChanged(sittings: 'both sittings' | 'today only'): Draw {
  return (random) => {
    const site = drawSite(random);
    const today = drawFaults(site, MODEL_RATES, random);
    const yesterday = withoutSome(today, random);
    const now = trueConditions(site, today);
    const before = trueConditions(site, yesterday);
    const words = goThrough(site, now, random);
    if (!words) return undefined;
    const name = words[0]!.function;
    const old: Told[] = [];
    let changed = false;
    const said = new Set<string>();
    for (const one of words) {
      const node = positionOf(site, one);
      const trunk = site.trunks.findIndex(({ id }) => id === one.trunk);
      if (one.function !== name || said.has(`${trunk} ${node}`)) continue;
      said.add(`${trunk} ${node}`);
      const then = before(trunk, node, name);
      changed ||= one.outcome === 'fails' && then === 'good' && now(trunk, node, name) !== 'good';
      if (random() >= 0.7) continue;
      const outcome = drawOutcome({ kind: 'office' }, then, random);
      old.push({ ...one, outcome, informant: { kind: 'office' } });
    }
    if (!changed) return undefined;
    return {
      site,
      evidence: words,
      request: toRequest(site, sittings === 'today only' ? words : [...old, ...words]),
      truth: truePlaces(site, today),
    };
  };
}

function withoutSome(faults: Faults, random: Random): Faults {
  const keep = (mode: string) => (mode === 'ok' || random() < 0.5 ? 'ok' : mode);
  return {
    headEnd: keep(faults.headEnd),
    trunks: faults.trunks.map(({ port, nodes }) => ({
      port: keep(port),
      nodes: nodes.map(({ junctionOut, cable, junctionIn, station }) => ({
        junctionOut: keep(junctionOut),
        cable: keep(cable),
        junctionIn: keep(junctionIn),
        station: keep(station),
      })),
    })),
  };
}
