/** One thing wrong with what was sent. */
export class FieldErrorDto {
  /**
   * JSON pointer into the body (RFC 6901), or the name of a parameter.
   * @example "/observations/0/node"
   */
  field!: string;

  /** @example "there is no node A99 on trunk A" */
  reason!: string;

  /**
   * The same in the language asked for, where that is another one.
   * @example "A99 no está en la línea A"
   */
  words?: string;

  /** Line of the sheet, when a sheet was sent. */
  line?: number;

  /** Column of the sheet, when a sheet was sent. */
  column?: string;

  /** The value that is wrong, when a sheet was sent. */
  value?: string;
}

/** A failure as RFC 9457 problem details, `application/problem+json`. */
export class ProblemDto {
  /**
   * Stable name of the kind of failure.
   * @example "urn:lastheard:problem:invalid-input"
   */
  type!: string;

  /** @example "The input is not valid" */
  title!: string;

  /** @example 422 */
  status!: number;

  /** @example "1 thing is wrong with what was sent; nothing was saved." */
  detail!: string;

  /** The same in the language asked for, where that is another one. */
  words?: string;

  /** What is wrong with the input, each with field and reason. */
  errors?: FieldErrorDto[];

  /** What it takes all the same once that is sent in `confirmed`. */
  confirm?: string[];

  /** With a move that is not allowed: the moves that are. */
  allowed?: string[];

  /** With a stale version: the version it is at now. */
  currentVersion?: number;
}
