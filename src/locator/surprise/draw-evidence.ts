/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { CONFUSED_LIKELIHOOD } from '../../plan/error-rates.js';
import type { SiteModel } from '../sweep/site.js';
import { trunkLikelihood, type TrunkModel } from '../sweep/trunk-model.js';
import type { Statement, StatementsOfOne } from '../sweep/statements.js';
import {
  type ConditionAt,
  type DrawnConditions,
  drawConditions,
  drawIndex,
  type Random,
} from './draw-conditions.js';

/** Place of `works` in a statement's outcomes. */
const WORKS = 0;

export interface DrawnEvidence {
  /** ln P(evidence) is no less than this, which is that of it together with all that was drawn; -Infinity: not known. */
  readonly leastLog: number;
  /** What P(evidence) is worked out from. */
  readonly site: () => SiteModel;
}

/**
 * The same questions asked of a site drawn from the model: the same rooms, functions and informants, each confused or
 * not as the model has it, and every room that nobody mentioned free to be mentioned. Null where all that was told is
 * that it works: nobody opens a ticket for that.
 */
export function drawEvidence(site: SiteModel, random: Random): DrawnEvidence | null {
  const drawn = drawConditions(site, random);
  const draw = new Draw(site, drawn, random);
  const statements = site.trunks.map((trunk, t) =>
    trunk.statements.map((heard, n) => heard.map((ofOne) => draw.tell(ofOne, t, n))),
  );
  if (!draw.isTicket) return null;
  return {
    // What was read is not drawn.
    leastLog: site.trunks.every(({ readings }) => readings === null) ? draw.logChance : -Infinity,
    site: () => ({
      ...site,
      trunks: site.trunks.map((trunk, t) => told(trunk, statements[t]!, site)),
    }),
  };
}

function told(
  trunk: TrunkModel,
  statements: TrunkModel['statements'],
  { headEnd }: SiteModel,
): TrunkModel {
  const likelihood = trunkLikelihood({ ...trunk, statements }, headEnd);
  return { ...trunk, statements, likelihood };
}

/** What is told of one drawn site. */
class Draw {
  /** Something that does not work was told, with the trunk whole. */
  isTicket = false;
  /** ln of the chance of all that was drawn so far. */
  logChance: number;
  private readonly conditionAt: ConditionAt;
  /** By flag. */
  private readonly confused: readonly boolean[];
  private readonly silences = new Map<StatementsOfOne, Map<number, StatementsOfOne>>();

  constructor(
    { flags }: SiteModel,
    { conditionAt, logChance }: DrawnConditions,
    private readonly random: Random,
  ) {
    this.conditionAt = conditionAt;
    this.logChance = logChance;
    this.confused = flags.map(({ confused }) => this.drawConfused(confused));
  }

  tell(ofOne: StatementsOfOne, t: number, n: number): StatementsOfOne {
    const conditionOf = ({ func, way }: Statement) => this.conditionAt(t, n, func, way);
    if (isSilence(ofOne)) return this.silenceAgain(ofOne, conditionOf);
    const isConfused =
      ofOne.flag < 0 ? this.drawConfused(ofOne.confused) : this.confused[ofOne.flag]!;
    const items = ofOne.items.map((statement): Statement => {
      const said = this.drawOutcome(statement, conditionOf(statement), isConfused);
      this.isTicket ||= statement.observation >= 0 && statement.way === 0 && said !== WORKS;
      return { ...statement, likelihood: statement.outcomes[said]! };
    });
    return { ...ofOne, items };
  }

  private drawConfused(confused: number): boolean {
    const isConfused = this.random() < confused;
    this.logChance += ln(isConfused ? confused : 1 - confused);
    return isConfused;
  }

  /** One informant for all rooms that stay unmentioned and one for all that do not, so that they share their tables. */
  private silenceAgain(
    ofOne: StatementsOfOne,
    conditionOf: (statement: Statement) => 0 | 1 | 2,
  ): StatementsOfOne {
    const [statement] = ofOne.items as [Statement];
    const said = this.drawOutcome(statement, conditionOf(statement), false);
    const variants = this.silences.get(ofOne) ?? new Map<number, StatementsOfOne>();
    this.silences.set(ofOne, variants);
    const variant = variants.get(said) ?? {
      ...ofOne,
      items: [{ ...statement, likelihood: statement.outcomes[said]! }],
    };
    variants.set(said, variant);
    return variant;
  }

  private drawOutcome({ outcomes }: Statement, condition: 0 | 1 | 2, isConfused: boolean): number {
    if (isConfused) {
      this.logChance += ln(CONFUSED_LIKELIHOOD);
      return Math.floor(this.random() * outcomes.length);
    }
    const chances = outcomes.map((ofOutcome) => ofOutcome[condition]);
    const said = drawIndex(chances, this.random());
    this.logChance += ln(chances[said]!);
    return said;
  }
}

function isSilence({ items }: StatementsOfOne): boolean {
  return items[0]?.observation === -1;
}
