/** Whether every case is tried: `npm test` tries a part, the same each time. Say `THOROUGH=1` for all. */
const isThorough = process.env['THOROUGH'] === '1';

/** How many cases, rounds or rows; or of what faults. */
export function cases<T>({ all, usual }: { all: T; usual: T }): T {
  return isThorough ? all : usual;
}

/** What is tried of a list: its first ones, or all. */
export function tried<T>(all: readonly T[], usual: number): readonly T[] {
  return isThorough ? all : all.slice(0, usual);
}
