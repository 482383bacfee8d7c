import { ApiProperty } from '@nestjs/swagger';
import { type FunctionName, FUNCTIONS, OUTCOMES, type Outcome } from '../locator/index.js';

/** Something worth looking at, listening to or measuring. */
export class CheckToMakeDto {
  /**
   * What to do.
   * @example "look whether the lamp in Room 9 is lit"
   */
  words!: string;

  @ApiProperty({
    enum: [
      'function',
      'volume-knob',
      'head-end',
      'supply-volts',
      'continuity',
      'open-junction',
      'isolation',
    ],
  })
  kind!: string;

  /**
   * Null at the head-end.
   * @example "A"
   */
  trunk!: string | null;

  /**
   * The station; of a stretch or a junction, the node that it leads to.
   * @example "A9"
   */
  node!: string | null;

  /** @example "Room 9" */
  room!: string | null;

  /** What is tried, and reported as heard or silent. */
  @ApiProperty({ enum: [...FUNCTIONS, null], type: String, nullable: true })
  function!: FunctionName | null;

  /**
   * The question by which it is answered, "yes" if it is as it should be; null for what is reported as heard or silent.
   * A volume knob turned up is both: answer how it was, and report what is heard then.
   * @example "head-end-on"
   */
  question!: string | null;

  /**
   * What it is expected to tell about where the trouble lies, in bits.
   * @example 0.84
   */
  informationBits!: number;

  /** What it takes, without the way there. */
  minutes!: number;

  /** @example 0.42 */
  bitsPerMinute!: number;
}

/** One thing that was told and goes badly with the rest. */
export class SurprisingDto {
  @ApiProperty({ format: 'uuid' })
  observationId!: string;

  /** @example "Room 9: announcement works, says Mara Quill" */
  words!: string;

  trunk!: string;
  node!: string;

  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;

  @ApiProperty({ enum: OUTCOMES })
  outcome!: Outcome;

  /**
   * Natural logarithm of its chance, given everything else that was told.
   * @example -6.2
   */
  logChance!: number;
}

/** Whether the evidence can be believed to come from the site as drawn. */
export class SurpriseDto {
  /** It is in the lowest hundredth of what the model makes likely for this site: look at the drawing first. */
  drawingMayBeWrong!: boolean;

  /**
   * Share of simulated evidence that was as unlikely as this, or more.
   * @example 0.34
   */
  share!: number;

  /**
   * How much was simulated; it ends as soon as the answer is no.
   * @example 9
   */
  simulated!: number;

  /** So many named callers were judged as anybody: as somebody they would be too many. */
  callersAsAnybody!: number;

  /** What goes worst with the rest, at most five; empty unless the drawing may be wrong. */
  mostSurprising!: SurprisingDto[];
}
