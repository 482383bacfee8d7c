import type { Place } from '../drawing/drawn-node.js';
import type { DrawingAlternative } from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import { drawingOf, findNode, nameNodesOf } from '../sites/drawing.js';
import type { EndedStep } from '../tickets/ticket-log.js';
import type { Words } from '../words/index.js';
import type {
  AlsoBrokenDto,
  ContradictionDto,
  DrawingDoubtDto,
  FirstStepDto,
} from './answer.dto.js';
import type { CheckToMakeDto } from './checks.dto.js';
import type { Contradiction } from './contradictions.js';
import type { ObservationLeftOutDto } from './location.dto.js';
import type { Suspect } from './place-chances.js';
import { type LeadingPlace, roomsInRuns } from './say-troubles.js';
import { settledBy } from './settled-drawing.js';

/** What is less likely broken is what nobody has looked at for long, and there is much of that. */
const LIKELY_BROKEN = 0.5;
const MOST_ALSO = 5;
/** What accounts for less accounts for nothing. */
const ACCOUNTS_FOR_NOTHING = 0.01;

/** What is likely broken and would not explain what was reported. */
export function sayAlsoBroken(
  suspects: readonly Suspect[],
  drawing: AsBuilt,
  words: Words,
): AlsoBrokenDto[] {
  return suspects
    .filter(
      ({ probability, accounts }) =>
        probability >= LIKELY_BROKEN && accounts < ACCOUNTS_FOR_NOTHING,
    )
    .sort((a, b) => b.probability - a.probability)
    .slice(0, MOST_ALSO)
    .map(({ place, probability }) => ({
      words: words.answer.alsoBroken(words.place(place, nameNodesOf(drawing, words)), probability),
      place,
      probability,
    }));
}

export function sayContradiction(
  { said, given }: Contradiction,
  drawing: AsBuilt,
  words: Words,
): ContradictionDto[] {
  const [first] = said;
  if (first === undefined) return [];
  const { trunk, node, function: name } = first;
  const room = nameNodesOf(drawing, words)(trunk, node);
  return [
    {
      words:
        given === null
          ? words.answer.contradiction(room, name, said)
          : words.answer.againstTheRest(room, name, first),
      trunk,
      node,
      room: findNode(drawing, trunk, node)?.room ?? null,
      function: name,
      said: said.map(({ id, saidBy, outcome }) => ({ observationId: id, saidBy, outcome })),
      given,
    },
  ];
}

/** How the drawing may be wrong, in words, with the look that tells. */
export function sayDrawingDoubt(
  alternative: DrawingAlternative,
  drawing: AsBuilt,
  words: Words,
  seen: readonly EndedStep[],
): DrawingDoubtDto {
  const { kind, trunk, from, to, probability, tellApart } = alternative;
  const nameNode = nameNodesOf(drawing, words);
  const { drawing: say } = words.answer;
  const drawn = drawing.trunks.find((one) => one.trunk === trunk)?.nodes ?? [];
  const at = (node: string) => drawn.findIndex((one) => one.node === node);
  const run = drawn.slice(at(from), at(to) + 1).map(({ node }) => node);
  const rooms = roomsInRuns(trunk, run, drawing, words);
  const feeder = drawingOf(drawing).pathTo(trunk, from).at(-2)?.id;
  const says = {
    branch: () =>
      say.branch(
        rooms,
        feeder === undefined ? words.headEnd : nameNode(trunk, feeder),
        probability,
      ),
    end: () => say.end(rooms, trunk, probability),
    swapped: () => say.swapped([nameNode(trunk, from), nameNode(trunk, to)], probability),
  }[kind];
  const look =
    tellApart.look === 'cables-at-node'
      ? say.countCables(nameNode(trunk, tellApart.node), tellApart.asDrawn, tellApart.alternative)
      : say.compareNames(tellApart.nodes.map((node) => nameNode(trunk, node)));
  const settled = settledBy(tellApart, seen);
  const known = { kind, trunk, from, to, probability, tellApart, settled };
  return { words: says(), tellApartWords: look, ...known };
}

/** From here on the drawing is looked at before anything else. */
const DRAWING_FIRST = 0.5;
/** A place that leads so is gone to, whatever the office could still look at. */
const SURE = 0.95;
const LEADS = 0.5;

/** Somebody looked, and it is not laid as drawn. */
export function isDrawnWrong(doubts: readonly Pick<DrawingDoubtDto, 'settled'>[]): boolean {
  return doubts.some(({ settled }) => settled === 'otherwise' || settled === 'neither');
}

/**
 * What settles the drawing, where it is likelier wrong than not, or that it is wrong, where somebody looked; null where it is not. What
 * was found to be as drawn is no doubt any more: the others are as likely as they are without it.
 */
export function drawingFirst(
  doubts: readonly Pick<
    DrawingDoubtDto,
    'probability' | 'tellApartWords' | 'tellApart' | 'settled'
  >[],
  drawing: AsBuilt,
  words: Words,
): string | null {
  const wrong = doubts.find((one) => isDrawnWrong([one]));
  if (wrong !== undefined) {
    const { trunk, node, nodes = node === undefined ? [] : [node] } = wrong.tellApart;
    const nameNode = nameNodesOf(drawing, words);
    return words.answer.first.drawnWrong(nodes.map((one) => nameNode(trunk, one)));
  }
  const open = doubts.filter(({ settled }) => settled === null);
  const sum = (of: typeof doubts) => of.reduce((all, { probability }) => all + probability, 0);
  const [doubt] = open;
  const refuted = sum(doubts) - sum(open);
  if (doubt === undefined || sum(open) < DRAWING_FIRST * (1 - refuted)) return null;
  return words.answer.first.atDrawing(doubt.tellApartWords);
}

/** What to do first and why: what settles the drawing, what needs nobody to travel, then the place that leads. */
export function sayFirst(
  known: {
    /** The one place that accounts for most; null where none does, undefined where nothing is reported. */
    leading: LeadingPlace | null | undefined;
    drawing: readonly DrawingDoubtDto[];
    officeChecks: readonly CheckToMakeDto[];
    technicianChecks: readonly CheckToMakeDto[];
    leftOut: readonly ObservationLeftOutDto[];
  },
  drawing: AsBuilt,
  words: Words,
): FirstStepDto {
  const { first: say } = words.answer;
  if (known.leading === undefined) {
    const [why] = known.leftOut;
    return { kind: 'nothing', words: why === undefined ? say.nothing : say.leftOut(why.reason) };
  }
  const lookAtDrawing = drawingFirst(known.drawing, drawing, words);
  if (lookAtDrawing !== null) return { kind: 'drawing', words: lookAtDrawing };
  const { leading } = known;
  const placeIn = (place: Place) => words.place(place, nameNodesOf(drawing, words));
  const goThere = (least: number): FirstStepDto[] =>
    leading && leading.probability >= least
      ? [{ kind: 'place', words: say.goTo(placeIn(leading.place), leading.probability) }]
      : [];
  const byOffice = known.officeChecks.slice(0, 1).map((check): FirstStepDto => {
    const minutes = Math.max(1, Math.round(check.minutes));
    return { kind: 'office', words: say.byOffice(check.words, minutes) };
  });
  const onSite = known.technicianChecks
    .slice(0, 1)
    .map((check): FirstStepDto => ({ kind: 'on-site', words: say.onSite(check.words) }));
  // Much of what may be wrong in the cabinet the office can see to.
  const isOffices = leading?.place.kind === 'head-end' && byOffice.length > 0;
  const surely = isOffices ? [] : goThere(SURE);
  const [first] = [...surely, ...byOffice, ...goThere(LEADS), ...onSite, ...goThere(0)];
  return first ?? { kind: 'nothing', words: say.nothing };
}
