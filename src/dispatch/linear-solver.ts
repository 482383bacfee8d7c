/** A number between 0 and 1 to be chosen, what it costs, and how much of it each row counts. */
export interface LinearColumn {
  cost: number;
  rows: readonly (readonly [row: number, times: number])[];
}

export interface LinearModel {
  columns: readonly LinearColumn[];
  rowLower: readonly number[];
  rowUpper: readonly number[];
  /** Whether a column is taken whole or not at all. */
  whole: boolean;
  /** A choice that is known to keep to the rows, by column: where a search begins. */
  known?: readonly number[];
}

export interface LinearSolution {
  /** Proven: no solution is below this. */
  bound: number;
  values: Float64Array;
  /** What a unit more of a row's limits adds to the cost; of no meaning where columns are whole. */
  rowPrices: Float64Array;
}

/** Finds the least cost; undefined when there is none, or none was found in the time it is allowed. */
export type LinearSolver = (model: LinearModel) => LinearSolution | undefined;
