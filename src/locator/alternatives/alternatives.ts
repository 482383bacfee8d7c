import { compareIds } from '../../drawing/drawn-tree.js';
import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import { sortLargestFirst } from '../posterior/order.js';
import { InvalidLocateRequest } from '../request/errors.js';
import type { LocateRequest } from '../request/locate-request.js';
import { onlyGroups } from '../sweep/head-end-groups.js';
import { quietGroups, quietTrunk } from '../sweep/quiet-site.js';
import { type SiteModel, siteModel } from '../sweep/site.js';
import type { WeighedEvidence } from '../posterior/weigh-evidence.js';
import { sweepUp } from '../sweep/sweep-trunk.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import type { Trouble } from '../causes/trouble-answer.js';
import type { DrawingAlternative, DrawingAnswer } from './drawing-answer.js';
import { drawnOtherwise, expectedOtherwise, type OtherDrawing } from './drawn-otherwise.js';
import { mostDrawings } from './most-drawings.js';
import { otherDrawings, type WeighedDrawing } from './other-drawings.js';
import { tellApart } from './tell-apart.js';
import { shareDrawings, type TrunkEvidence, type Weighed } from './weigh-drawings.js';

/** Alternatives less likely than this are not told. */
const MIN_ALTERNATIVE = 0.01;

/** A request over another drawing of one of its trunks. */
export interface Redrawn {
  readonly request: LocateRequest;
  readonly expected: ExpectedFaults | undefined;
}

export interface DrawingQuestion extends Redrawn {
  readonly errors?: ErrorRates;
  /** By trunk: the chance that it is laid otherwise. */
  readonly doubtOf: (trunk: string) => number;
  /** The request over its drawing as sent. */
  readonly weighed: WeighedEvidence;
  readonly troublesUnder: (redrawn: Redrawn) => Trouble[];
}

interface Candidate extends Weighed {
  readonly trunk: string;
  readonly drawing: WeighedDrawing;
  readonly redrawn: Redrawn;
}

/** Each alternative of a trunk that fits the readings, with the evidence under it. */
function candidatesOf(question: DrawingQuestion, t: number, most: number): Candidate[] {
  const { request, errors, expected, weighed, doubtOf } = question;
  const { swept, quietModel } = weighed;
  const tree = swept.site.trunks[t]?.tree;
  if (!tree) return [];
  const drawings = otherDrawings(request, tree, doubtOf(tree.id)).slice(0, most);
  const isQuiet = quietModel ? quietGroups(swept.site) : null;
  return drawings.flatMap((drawing) => {
    const moved = drawnOtherwise(request, tree.id, drawing.other);
    if (moved === null) return [];
    const redrawn = {
      request: moved,
      expected: expectedOtherwise(expected, tree.id, drawing.other),
    };
    const site = modelIfCarried(() =>
      siteModel(moved, errors, redrawn.expected, {
        redrawn: { site: swept.site, trunk: tree.id },
      }),
    );
    // Another drawing may let fewer callers be carried: then nothing could be compared.
    if (site === null || site.identitiesDropped.length > 0) return [];
    const [trunk] = site.trunks;
    if (!trunk) return [];
    const quiet =
      isQuiet &&
      quietTrunk(
        trunk,
        onlyGroups(site.headEnd, (group) => isQuiet[group] === true),
        isQuiet,
      );
    return [
      {
        prior: drawing.prior,
        evidence: evidenceOf(trunk),
        quiet: quiet && evidenceOf(quiet),
        trunk: tree.id,
        drawing,
        redrawn,
      },
    ];
  });
}

/** Null where what was told while a cable was off would be too much on another drawing. */
function modelIfCarried(make: () => SiteModel): SiteModel | null {
  try {
    return make();
  } catch (error) {
    if (error instanceof InvalidLocateRequest) return null;
    throw error;
  }
}

function evidenceOf(trunk: TrunkModel): TrunkEvidence {
  return sweepUp(trunk).port.logEvidence;
}

function answerOf(
  { request, troublesUnder }: DrawingQuestion,
  { trunk, drawing, redrawn }: Candidate,
  probability: number,
): DrawingAlternative[] {
  const { other, widest } = drawing;
  const find = ({ trunks }: LocateRequest) => trunks.find(({ id }) => id === trunk);
  const [drawn, moved] = [find(request), find(redrawn.request)];
  if (!drawn || !moved) return [];
  return [
    {
      kind: other.kind,
      trunk,
      ...endsOf(other),
      ...(widest && { atMostFrom: widest.from, atMostTo: widest.to }),
      probability,
      tellApart: tellApart(drawn, moved, other),
      troubles: troublesUnder(redrawn),
    },
  ];
}

function endsOf(other: OtherDrawing): { from: string; to: string } {
  if (other.kind === 'swapped') return { from: other.upper, to: other.lower };
  return { from: other.run[0] ?? '', to: other.run.at(-1) ?? '' };
}

function compareAlternatives(a: DrawingAlternative, b: DrawingAlternative): number {
  const keys = (one: DrawingAlternative) => [one.trunk, one.kind, one.from, one.to];
  const [left, right] = [keys(a), keys(b)];
  return left.reduce((order, key, k) => order || compareIds(key, right[k] ?? ''), 0);
}

/** By trunk, the drawing as sent with what is left of the prior, then the candidates. */
function drawingsByTrunk(
  { swept, quietEvidence }: WeighedEvidence,
  candidates: readonly (readonly Candidate[])[],
): Weighed[][] {
  return candidates.map((list, t) => {
    const evidence = swept.sweeps[t]?.port.logEvidence ?? new Float64Array();
    const asSent: Weighed = {
      prior: list.reduce((left, { prior }) => left - prior, 1),
      evidence,
      quiet: quietEvidence?.[t] ?? null,
    };
    return [asSent, ...list];
  });
}

/** How far the drawing is to be believed, given all that was told (fault model, section 10). */
export function drawingAnswer(question: DrawingQuestion): DrawingAnswer {
  const { weighed } = question;
  const { site } = weighed.swept;
  const most = mostDrawings(site);
  const candidates = site.trunks.map((_, t) => candidatesOf(question, t, most));
  if (candidates.every((list) => list.length === 0)) return { asDrawn: 1, alternatives: [] };
  const { asDrawn, byTrunk } = shareDrawings(
    site,
    weighed.quietModel,
    drawingsByTrunk(weighed, candidates),
  );
  const alternatives = candidates.flatMap((list, t) =>
    list.flatMap((candidate, k) => {
      const probability = byTrunk[t]?.[k + 1] ?? 0;
      return probability < MIN_ALTERNATIVE ? [] : answerOf(question, candidate, probability);
    }),
  );
  return {
    asDrawn,
    alternatives: sortLargestFirst(alternatives, (one) => one.probability, compareAlternatives),
  };
}
