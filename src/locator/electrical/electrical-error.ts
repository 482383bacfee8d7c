export type ElectricalErrorCode = 'invalid' | 'supply-collapses';

/** What the electrical model throws: the field (a path such as `nodes/3/cableMetres`) and why. */
export class ElectricalError extends Error {
  constructor(
    readonly code: ElectricalErrorCode,
    readonly field: string,
    readonly reason: string,
  ) {
    super(`${field}: ${reason}`);
    this.name = 'ElectricalError';
  }
}
