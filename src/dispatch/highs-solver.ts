import loadHighs, { type Highs, type ModelData } from 'highs';
import type { LinearModel, LinearSolution, LinearSolver } from './linear-solver.js';

/** A single model's longest run; beyond, what was found by then. */
const SECONDS = 8;

// The package's types take its module for CommonJS, whose default would be one level deeper.
const load = loadHighs as unknown as typeof loadHighs.default;

/** HiGHS as WebAssembly, one instance a thread: https://highs.dev (MIT). */
export async function highsSolver(): Promise<LinearSolver> {
  const highs = await load();
  return (model) => solveLinear(highs, model);
}

function solveLinear(highs: Highs, model: LinearModel): LinearSolution | undefined {
  return highs.withModel(modelData(highs, model), (solver) => {
    solver.options.set({ output_flag: false, time_limit: SECONDS, random_seed: 1 });
    // Costs are whole numbers: nothing lies between a choice and one that is less than 1 better.
    if (model.whole) solver.options.set({ mip_rel_gap: 0, mip_abs_gap: 0.999 });
    if (model.known !== undefined) solver.setSolution({ colValue: model.known });
    solver.run();
    const { colValue, rowDual } = solver.getSolution();
    const isBest = solver.getModelStatus() === highs.constants.modelStatus.optimal;
    const objective = solver.getObjectiveValue();
    if (!Number.isFinite(objective) || colValue.length === 0) return undefined;
    if (!isBest && !model.whole) return undefined;
    const bound = model.whole ? Number(solver.info.get('mip_dual_bound')) : objective;
    return { bound, values: colValue, rowPrices: rowDual };
  });
}

function modelData(highs: Highs, model: LinearModel): ModelData {
  const numCols = model.columns.length;
  const numRows = model.rowLower.length;
  const starts = new Int32Array(numCols + 1);
  for (const [column, { rows }] of model.columns.entries()) {
    starts[column + 1] = (starts[column] ?? 0) + rows.length;
  }
  const entries = model.columns.flatMap(({ rows }) => rows.toSorted(([a], [b]) => a - b));
  const { integer } = highs.constants.variableType;
  return {
    numCols,
    numRows,
    colCost: model.columns.map(({ cost }) => cost),
    colLower: new Float64Array(numCols),
    colUpper: new Float64Array(numCols).fill(1),
    rowLower: model.rowLower,
    rowUpper: model.rowUpper,
    matrix: {
      format: 'csc',
      numRows,
      numCols,
      starts,
      indices: Int32Array.from(entries, ([row]) => row),
      values: Float64Array.from(entries, ([, times]) => times),
    },
    ...(model.whole && { integrality: new Int32Array(numCols).fill(integer) }),
  };
}
