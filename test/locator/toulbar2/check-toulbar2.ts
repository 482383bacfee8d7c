// Runs toulbar2 again on every case and compares it with the recorded numbers, which toulbar2.test.ts compares with the
// locator. `node dist-test/locator/toulbar2/check-toulbar2.js` (exit code 1 on a difference); with `--record` writes the
// numbers anew.
import { writeFileSync } from 'node:fs';
import { type BayesNetwork, combinations } from './bayes-network.js';
import { CASES, EXPLAINED, networkOf } from './cases.js';
import { explanationNetwork } from './explanation-network.js';
import {
  checksum,
  COUNTED_NATS,
  readRecorded,
  RECORDED,
  type Recorded,
  type RecordedCase,
  type RecordedExplanations,
} from './recorded.js';
import { COMMANDS, COSTS_PER_NAT, Toulbar2, toulbar2Version } from './run-toulbar2.js';
import { uai, uaiEvidence } from './uai.js';

/**
 * log10 P as printed, for each combination of who is confused, and log P of them together: with those variables free,
 * toulbar2 needs a minute for what it adds up in seconds when they are given.
 */
function evidenceOf(toulbar2: Toulbar2, network: BayesNetwork, asked: [string, string][] = []) {
  const people = network.variables.filter(({ name }) => name.startsWith('confused '));
  const parts = combinations(people).map((values) => {
    const given = values.map((value, i): [string, string] => [people[i]!.name, value]);
    return toulbar2.evidence(uaiEvidence(network, [...given, ...asked]));
  });
  return {
    log10: parts.map(({ log10 }) => log10),
    log: Math.log(parts.reduce((sum, { log }) => sum + Math.exp(log), 0)),
  };
}

function counts(toulbar2: Toulbar2, evidence: string, cost: number): number[] {
  return COUNTED_NATS.map((nats) => toulbar2.count(evidence, cost + nats * COSTS_PER_NAT));
}

function runExplained(name: string): RecordedExplanations {
  const network = explanationNetwork(EXPLAINED[name]!);
  const model = uai(network);
  const evidence = uaiEvidence(network);
  const toulbar2 = new Toulbar2(model);
  try {
    const { cost } = toulbar2.mostProbable(evidence);
    return { input: checksum(model), cost, counts: counts(toulbar2, evidence, cost) };
  } finally {
    toulbar2.close();
  }
}

function runCase(name: string): RecordedCase {
  const { asked } = CASES[name]!;
  const network = networkOf(CASES[name]!);
  const model = uai(network);
  const evidence = uaiEvidence(network);
  const toulbar2 = new Toulbar2(model);
  try {
    const mostProbable = toulbar2.mostProbable(evidence);
    return {
      input: checksum(model, evidence),
      mostProbable,
      evidence: evidenceOf(toulbar2, network),
      counts: counts(toulbar2, evidence, mostProbable.cost),
      asked: asked.map((pair) => evidenceOf(toulbar2, network, [pair]).log),
    };
  } finally {
    toulbar2.close();
  }
}

const everyOf = <T>(cases: object, run: (name: string) => T): Record<string, T> =>
  Object.fromEntries(Object.keys(cases).map((name) => [name, run(name)]));

function runAll(): Recorded {
  return {
    program: `toulbar2 ${toulbar2Version()}`,
    commands: COMMANDS,
    cases: everyOf(CASES, runCase),
    explanations: everyOf(EXPLAINED, runExplained),
  };
}

function check(): boolean {
  const again = runAll();
  const recorded = readRecorded();
  const compare = (what: string, now: Record<string, unknown>, then: Record<string, unknown>) =>
    Object.keys(now).map((name) => {
      const isSame = JSON.stringify(now[name]) === JSON.stringify(then[name]);
      console.log(`${isSame ? 'ok  ' : `FAIL now ${JSON.stringify(now[name])}:`} ${what} ${name}`);
      return isSame;
    });
  return [
    ...compare('case', again.cases, recorded.cases),
    ...compare('explanations', again.explanations, recorded.explanations),
  ].every(Boolean);
}

if (process.argv.includes('--record'))
  writeFileSync(RECORDED, `${JSON.stringify(runAll(), null, 2)}\n`);
else process.exitCode = check() ? 0 : 1;
