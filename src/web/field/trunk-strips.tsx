import { stripsOf } from '#app/drawing/strip-of.js';
import type { SuspectedOnKit } from '#app/walks/plan-on-kit.js';
import type { WalkStep } from '#app/walks/plan-ticket-walk.js';
import { wordsIn } from '#app/words/index.js';
import { LEAST_SHOWN } from '../parts/drawing/drawn-facts.js';
import { type DrawnStrip, stripRows } from '../parts/drawing/strip-rows.js';
import { TrunkStrip } from '../parts/drawing/strip.js';
import { PAGE_FORMATS, PAGE_LANGUAGE, PAGE_WORDS } from '../parts/language.js';
import type { ReadKit } from '../parts/wire.js';
import { FIELD_WORDS } from './field-words.js';
import { capital } from './words-shape.js';
import { nameNodesIn } from './kit-node-field.js';

/** As many nodes fit beside each other on the narrowest phone, at that size. */
const NODES_A_ROW = 14;
const SCALE = 1.6;

interface TrunkStripsProps {
  kit: ReadKit;
  suspected: SuspectedOnKit;
  /** Where the next step is. */
  where: WalkStep['where'] | undefined;
}

/** The trunks in trouble, each in a line or a few: what is suspected, and where the next step is. */
export function TrunkStrips({
  kit,
  suspected: { said, places, contradictions },
  where,
}: TrunkStripsProps) {
  const { trunks } = kit.drawing;
  const likely = places.filter(({ probability }) => probability >= LEAST_SHOWN);
  const strips = stripsOf({
    trunks: trunks.map(({ trunk, nodes }) => ({ trunk, nodes: nodes.map(({ node }) => node) })),
    said,
    places: likely,
  });
  const positionOf = (trunk: string, node: string): number | undefined => {
    const nodes = trunks.find((one) => one.trunk === trunk)?.nodes ?? [];
    const at = nodes.findIndex((one) => one.node === node);
    return at < 0 ? undefined : at;
  };
  const hereOn = (trunk: string): number | undefined => {
    if (where === undefined) return undefined;
    if (where.node === null) return -1;
    return where.trunk === trunk ? positionOf(trunk, where.node) : undefined;
  };
  const ringedOn = (trunk: string) =>
    likely.flatMap(({ place, probability }) => {
      const isHere = place.kind === 'station' && place.trunk === trunk;
      const at = isHere ? positionOf(trunk, place.node) : undefined;
      return at === undefined ? [] : [{ at, chance: probability }];
    });
  const rowsOf = (trunk: string, strip: DrawnStrip) =>
    stripRows({ ...strip, ringed: ringedOn(trunk), here: hereOn(trunk) }, NODES_A_ROW);
  const [first] = places;
  return (
    <figure class="strips">
      {strips.map(({ trunk, ...strip }) => (
        <div key={trunk}>
          {strips.length > 1 && <p class="soft">{PAGE_WORDS.line(trunk)}</p>}
          {rowsOf(trunk, strip).map((row, at) => (
            <TrunkStrip key={at} {...row} scale={SCALE} />
          ))}
        </div>
      ))}
      {first !== undefined && (
        <figcaption class="soft">
          {FIELD_WORDS.suspected(
            wordsIn(PAGE_LANGUAGE).place(first.place, nameNodesIn(kit)),
            PAGE_FORMATS.percent(Math.round(first.probability * 100)),
          )}
        </figcaption>
      )}
      {contradictions.map((words) => (
        <p key={words} class="notice">
          {capital(words)}
        </p>
      ))}
    </figure>
  );
}
