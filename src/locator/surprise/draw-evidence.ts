/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SiteModel } from '../sweep/site.js';
import { trunkLikelihood } from '../sweep/trunk-model.js';
import type { Statement, StatementsOfOne } from '../sweep/statements.js';
import { type ConditionAt, drawConditions, drawIndex, type Random } from './draw-conditions.js';

/** Place of `works` in a statement's outcomes. */
const WORKS = 0;

/**
 * The same questions asked of a site drawn from the model: the same rooms, functions and informants, each confused or
 * not as the model has it, and every room that nobody mentioned free to be mentioned. Null where all that was told is
 * that it works: nobody opens a ticket for that.
 */
export function drawEvidence(site: SiteModel, random: Random): SiteModel | null {
  const conditionAt = drawConditions(site, random);
  const confused = site.flags.map((flag) => random() < flag.confused);
  let isTicket = false;
  const silences = new Map<StatementsOfOne, Map<number, StatementsOfOne>>();
  const say = (statement: Statement, at: [number, number], isConfused: boolean): Statement => {
    const said = drawOutcome(
      statement,
      conditionAt(...at, statement.func, statement.way),
      isConfused,
      random,
    );
    isTicket ||= statement.observation >= 0 && statement.way === 0 && said !== WORKS;
    return { ...statement, likelihood: statement.outcomes[said]! };
  };
  const trunks = site.trunks.map((trunk, t) => {
    const statements = trunk.statements.map((heard, n) =>
      heard.map((ofOne) => {
        if (isSilence(ofOne)) return silenceAgain(ofOne, conditionAt, [t, n], silences, random);
        const isConfused = ofOne.flag < 0 ? random() < ofOne.confused : confused[ofOne.flag]!;
        const items = ofOne.items.map((one) => say(one, [t, n], isConfused));
        return { ...ofOne, items };
      }),
    );
    return { trunk, statements };
  });
  if (!isTicket) return null;
  return {
    ...site,
    trunks: trunks.map(({ trunk, statements }) => ({
      ...trunk,
      statements,
      likelihood: trunkLikelihood({ ...trunk, statements }, site.headEnd),
    })),
  };
}

function isSilence({ items }: StatementsOfOne): boolean {
  return items[0]?.observation === -1;
}

/** One informant for all rooms that stay unmentioned and one for all that do not, so that they share their tables. */
function silenceAgain(
  ofOne: StatementsOfOne,
  conditionAt: ConditionAt,
  [t, n]: [number, number],
  known: Map<StatementsOfOne, Map<number, StatementsOfOne>>,
  random: Random,
): StatementsOfOne {
  const [statement] = ofOne.items as [Statement];
  const said = drawOutcome(statement, conditionAt(t, n, statement.func, 0), false, random);
  const variants = known.get(ofOne) ?? new Map<number, StatementsOfOne>();
  known.set(ofOne, variants);
  const variant = variants.get(said) ?? {
    ...ofOne,
    items: [{ ...statement, likelihood: statement.outcomes[said]! }],
  };
  variants.set(said, variant);
  return variant;
}

function drawOutcome(
  { outcomes }: Statement,
  condition: 0 | 1 | 2,
  isConfused: boolean,
  random: Random,
): number {
  if (isConfused) return Math.floor(random() * outcomes.length);
  return drawIndex(
    outcomes.map((chances) => chances[condition]),
    random(),
  );
}
