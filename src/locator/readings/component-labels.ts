import type { EffectClasses } from '../sweep/effect-classes.js';
import {
  coresSeen,
  labelsAbove,
  leavesLabels,
  type LabelledComponent,
  type LabelledLoop,
} from './label.js';
import type { ComponentLabels, LabelShape } from './label-shape.js';
import type { LabelSpace, Moves } from './label-space.js';

/** The moves of one effect, as far as they are the same for all components of a shape. */
interface Template {
  readonly moves: Moves;
  /** Loops whose excess each move is weighed by, as bits; null where none is. */
  readonly excesses: Uint8Array | null;
}

interface Made {
  readonly shape: LabelShape;
  readonly templates: readonly (Template | null)[];
  /** Where no excess matters: the same for all. */
  readonly alike: ComponentLabels | null;
}

/**
 * Shapes that were met lately, of whatever request: what the same readings make of labels is mostly the same, and what the
 * sweeps make of a shape is kept with it, some ten kilobytes.
 */
const KEPT = new WeakMap<EffectClasses, Map<string, LabelShape>>();
const MOST_SHAPES_KEPT = 100;
const MOST_LABELS_KEPT = 64;

function keptShapes(classes: EffectClasses): Map<string, LabelShape> {
  const shapes = KEPT.get(classes) ?? new Map<string, LabelShape>();
  KEPT.set(classes, shapes);
  return shapes;
}

/** What components do to labels: what several have in common is made once. */
export class ComponentLabelsMaker {
  private readonly made = new WeakMap<LabelSpace, Map<string, Made>>();
  /** With more labels than are kept. */
  private readonly largeShapes = new Map<string, LabelShape>();

  constructor(
    private readonly classes: EffectClasses,
    private readonly stretches: number,
    private readonly loops: readonly LabelledLoop[],
  ) {}

  /** Fills up `space` with what the component's faults make of its labels; null where they leave all as they are. */
  of(
    space: LabelSpace,
    chances: Float64Array,
    component: LabelledComponent,
  ): ComponentLabels | null {
    const moved = this.classes.does.map(
      (effect, e) => (chances[e] ?? 0) > 0 && !leavesLabels(effect, component),
    );
    if (!moved.includes(true)) return null;
    const { templates, shape, alike } = this.madeFor(space, moved, component);
    if (alike) return alike;
    const moves = templates.map((template) => template && weighed(template, component));
    return { moves, shape };
  }

  private madeFor(space: LabelSpace, moved: boolean[], component: LabelledComponent): Made {
    const ofSpace = this.made.get(space) ?? new Map<string, Made>();
    this.made.set(space, ofSpace);
    let set = 0;
    for (let e = 0; e < moved.length; e++) if (moved[e]) set |= 1 << e;
    let key = `${space.labels.length};${set};${component.asked.join()}`;
    for (const { group, excess } of component.loops) key += `;${group}${excess > 0 ? '+' : ''}`;
    const known = ofSpace.get(key) ?? this.make(space, moved, component);
    ofSpace.set(key, known);
    return known;
  }

  private make(space: LabelSpace, moved: readonly boolean[], component: LabelledComponent): Made {
    const count = space.labels.length;
    const templates = this.classes.does.map((_, e) =>
      moved[e] ? this.template(space, count, e, component) : null,
    );
    const shape = this.shapeOf(space, count, templates);
    const isAlike = templates.every((template) => template?.excesses == null);
    const moves = templates.map((template) => template?.moves ?? null);
    return { shape, templates, alike: isAlike ? { moves, shape } : null };
  }

  private template(
    space: LabelSpace,
    count: number,
    e: number,
    component: LabelledComponent,
  ): Template | null {
    const effect = this.classes.does[e];
    if (effect === undefined) return null;
    const entries = { from: [] as number[], to: [] as number[], excesses: [] as number[] };
    for (let l = 0; l < count; l++)
      for (const { label, excesses } of labelsAbove(effect, component, space.labels[l] ?? [])) {
        entries.from.push(l);
        entries.to.push(space.number(label));
        entries.excesses.push(excesses);
      }
    const moves = {
      from: Uint16Array.from(entries.from),
      to: Uint16Array.from(entries.to),
      weight: new Float64Array(entries.from.length).fill(1),
    };
    const isWeighed = entries.excesses.some((set) => set > 0);
    return { moves, excesses: isWeighed ? Uint8Array.from(entries.excesses) : null };
  }

  /** Of different spaces too: most are alike. */
  private shapeOf(
    { labels }: LabelSpace,
    count: number,
    templates: readonly (Template | null)[],
  ): LabelShape {
    const cores = labels.map((label) => coresSeen(this.stretches, label, this.loops));
    const seen = Uint8Array.from(cores, (one) => one.seen);
    const unseen = Uint8Array.from(cores, (one) => one.unseen);
    const links = templates.map((template) => template?.moves ?? null);
    const key = [count, seen.join(), unseen.join(), ...links.map(linksKey)].join(';');
    const isKept = labels.length <= MOST_LABELS_KEPT;
    const shapes = isKept ? keptShapes(this.classes) : this.largeShapes;
    const known = shapes.get(key) ?? { labels: count, links, seen, unseen };
    // The one that was asked for last is the last to go.
    shapes.delete(key);
    shapes.set(key, known);
    if (isKept && shapes.size > MOST_SHAPES_KEPT) shapes.delete(shapes.keys().next().value ?? '');
    return known;
  }
}

const linksKey = (links: Moves | null) => links && `${links.from.join()}>${links.to.join()}`;

function weighed({ moves, excesses }: Template, { loops }: LabelledComponent): Moves {
  if (!excesses) return moves;
  const weight = moves.weight.map((_, m) =>
    loops.reduce(
      (product, { excess }, l) => product * ((excesses[m] ?? 0) & (1 << l) ? excess : 1),
      1,
    ),
  );
  return { ...moves, weight };
}
