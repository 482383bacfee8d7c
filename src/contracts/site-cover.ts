/** A time in which a contract covers a site; half-open, in days. */
export interface CoverPeriod {
  contractId: string;
  from: string;
  until: string;
}

/** Days on end that no contract covers, or more than one. */
export interface CoverFlaw {
  from: string;
  until: string;
  contractIds: string[];
}

/** Where the cover of a site has holes between its first day and its last, and where contracts overlap. */
export function flawsOfCover(periods: readonly CoverPeriod[]): {
  gaps: CoverFlaw[];
  overlaps: CoverFlaw[];
} {
  const edges = [...new Set(periods.flatMap(({ from, until }) => [from, until]))].sort();
  const gaps: CoverFlaw[] = [];
  const overlaps: CoverFlaw[] = [];
  edges.slice(0, -1).forEach((from, index) => {
    const until = edges[index + 1] ?? from;
    const covering = periods.filter((period) => period.from <= from && until <= period.until);
    const contractIds = covering.map(({ contractId }) => contractId).sort();
    if (contractIds.length === 0) gaps.push({ from, until, contractIds });
    if (contractIds.length > 1) overlaps.push({ from, until, contractIds });
  });
  return { gaps, overlaps };
}

/** The contract in force on a day; of several, the one that began last. */
export function inForceOn<Period extends CoverPeriod>(
  periods: readonly Period[],
  day: string,
): Period | undefined {
  return [...periods]
    .filter(({ from, until }) => from <= day && day < until)
    .sort(
      (one, other) => compare(other.from, one.from) || compare(one.contractId, other.contractId),
    )[0];
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
