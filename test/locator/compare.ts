import { expect } from '@jest/globals';
import { locate, type LocateResult, type Place } from '#app/locator/index.js';
import { enumeratePosterior } from './oracle/posterior.js';
import type { OracleExpectation, OracleRequest } from './oracle/request.js';
import { type ConditionName, ERRORS, OUTCOMES } from './oracle/tables.js';

export function placeName(place: Place): string {
  if (place.kind === 'head-end') return 'head-end';
  if (place.kind === 'port') return `port ${place.trunk}`;
  if (place.kind === 'span') return `span ${place.trunk} ${place.to}`;
  return `station ${place.trunk} ${place.node}`;
}

/** Every number of an answer by a name, so that two answers can be compared whatever their order. */
export function named(result: LocateResult): Record<string, number> {
  const numbers: Record<string, number> = { logEvidence: result.logEvidence };
  for (const { place, probability, components } of result.places) {
    numbers[placeName(place)] = probability;
    for (const { component, modes } of components)
      for (const [mode, chance] of Object.entries(modes))
        numbers[`${placeName(place)} ${component} ${mode}`] = chance;
  }
  for (const { trunk, node, function: name, works } of result.predictions)
    numbers[`${trunk} ${node} ${name} works`] = works;
  for (const check of result.checks)
    if (check.kind === 'hear')
      numbers[`${check.trunk} ${check.node} ${check.function} bits`] = check.informationBits;
  return numbers;
}

export function oracleNumbers(
  request: OracleRequest,
  expected?: OracleExpectation,
): Record<string, number> {
  const answer = enumeratePosterior(request, expected);
  const numbers: Record<string, number> = {
    logEvidence: answer.logEvidence,
    quiet: answer.quiet,
    ...answer.places,
    ...answer.modes,
  };
  for (const [key, chances] of Object.entries(answer.conditions)) {
    numbers[`${key} works`] = chances.good + chances.weak;
    numbers[`${key} bits`] = oracleInformation(chances);
  }
  // The oracle writes "span A/A1" and "A/A1|bell", names here are "span A A1" and "A A1 bell".
  return Object.fromEntries(
    Object.entries(numbers).map(([name, value]) => [name.replace(/[/|]/g, ' '), value]),
  );
}

/** I of section 5 for a technician, from the definition. */
function oracleInformation(chances: Record<ConditionName, number>): number {
  const entropy = (list: number[]) =>
    list.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
  const errors = ERRORS.technician!;
  const names = ['good', 'weak', 'dead'] as const;
  const outcomes = OUTCOMES.map((_, o) =>
    names.reduce((sum, name) => sum + chances[name] * errors[name]![o]!, 0),
  );
  return (
    entropy(outcomes) - names.reduce((sum, name) => sum + chances[name] * entropy(errors[name]!), 0)
  );
}

/** The largest difference of two sets of named numbers; a name that one of them lacks counts as 0 there. */
export function largestDifference(
  a: Record<string, number>,
  b: Record<string, number>,
): { name: string; difference: number } {
  let worst = { name: '', difference: 0 };
  for (const name of new Set([...Object.keys(a), ...Object.keys(b)])) {
    const difference = Math.abs((a[name] ?? 0) - (b[name] ?? 0));
    // Not `>`: NaN must count as the worst.
    if (!(difference <= worst.difference)) worst = { name, difference };
  }
  return worst;
}

/** Nine digits: the fault model's promise. Every number, relative where a chance is small. */
export function expectAgreement(request: OracleRequest, expected?: OracleExpectation): void {
  // No number here is of an explanation: those have an oracle of their own (`explanation-agreement.ts`).
  const answer = locate({ ...request, explanations: 0 }, undefined, expected);
  const numbers: Record<string, number> = { ...named(answer), quiet: answer.quiet };
  const oracle = oracleNumbers(request, expected);
  expect(largestDifference(numbers, oracle).difference).toBeLessThan(1e-9);
  for (const [name, value] of Object.entries(oracle))
    // A logarithm near 0 is a chance near 1: its digits are those of the chance.
    if (!name.endsWith(' bits') && name !== 'logEvidence' && value > 1e-30)
      expect([name, Math.abs((numbers[name] ?? 0) / value - 1) < 1e-9]).toEqual([name, true]);
}
