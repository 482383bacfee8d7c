/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SiteModel } from '../sweep/site.js';
import { trunkLikelihood } from '../sweep/trunk-model.js';
import type { Statement, Voice } from '../sweep/voices.js';
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
  const silences = new Map<Voice, Map<number, Voice>>();
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
    const voices = trunk.voices.map((heard, n) =>
      heard.map((voice) => {
        if (isSilence(voice)) return silenceAgain(voice, conditionAt, [t, n], silences, random);
        const isConfused = voice.flag < 0 ? random() < voice.confused : confused[voice.flag]!;
        const statements = voice.statements.map((one) => say(one, [t, n], isConfused));
        return { ...voice, statements };
      }),
    );
    return { trunk, voices };
  });
  if (!isTicket) return null;
  return {
    ...site,
    trunks: trunks.map(({ trunk, voices }) => ({
      ...trunk,
      voices,
      likelihood: trunkLikelihood({ ...trunk, voices }, site.headEnd),
    })),
  };
}

function isSilence({ statements }: Voice): boolean {
  return statements[0]?.observation === -1;
}

/** One voice for all rooms that stay unmentioned and one for all that do not, so that they share their tables. */
function silenceAgain(
  voice: Voice,
  conditionAt: ConditionAt,
  [t, n]: [number, number],
  known: Map<Voice, Map<number, Voice>>,
  random: Random,
): Voice {
  const [statement] = voice.statements as [Statement];
  const said = drawOutcome(statement, conditionAt(t, n, statement.func, 0), false, random);
  const variants = known.get(voice) ?? new Map<number, Voice>();
  known.set(voice, variants);
  const variant = variants.get(said) ?? {
    ...voice,
    statements: [{ ...statement, likelihood: statement.outcomes[said]! }],
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
