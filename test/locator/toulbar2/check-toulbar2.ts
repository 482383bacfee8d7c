// Runs toulbar2 again on every case and compares it with the recorded numbers, which toulbar2.test.ts compares with the
// locator. `node dist-test/locator/toulbar2/check-toulbar2.js` (exit code 1 on a difference); with `--record` writes the
// numbers anew.
import { writeFileSync } from 'node:fs';
import { type BayesNetwork, combinations } from './bayes-network.js';
import { CASES, networkOf } from './cases.js';
import { checksum, COUNTED_NATS, readRecorded, RECORDED, type RecordedCase } from './recorded.js';
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

function runCase(name: string): RecordedCase {
  const { asked } = CASES[name]!;
  const network = networkOf(CASES[name]!);
  const model = uai(network);
  const evidence = uaiEvidence(network);
  const toulbar2 = new Toulbar2(model);
  try {
    const mostProbable = toulbar2.mostProbable(evidence);
    const bound = (nats: number) => mostProbable.cost + nats * COSTS_PER_NAT;
    return {
      input: checksum(model, evidence),
      mostProbable,
      evidence: evidenceOf(toulbar2, network),
      counts: COUNTED_NATS.map((nats) => toulbar2.count(evidence, bound(nats))),
      asked: asked.map((pair) => evidenceOf(toulbar2, network, [pair]).log),
    };
  } finally {
    toulbar2.close();
  }
}

function record(): void {
  const cases = Object.fromEntries(Object.keys(CASES).map((name) => [name, runCase(name)]));
  const recorded = { program: `toulbar2 ${toulbar2Version()}`, commands: COMMANDS, cases };
  writeFileSync(RECORDED, `${JSON.stringify(recorded, null, 2)}\n`);
}

function check(): boolean {
  const recorded = readRecorded();
  const results = Object.keys(CASES).map((name) => {
    const again = JSON.stringify(runCase(name));
    const isSame = again === JSON.stringify(recorded.cases[name]);
    console.log(isSame ? `ok   ${name}` : `FAIL ${name}: now ${again}`);
    return isSame;
  });
  return results.length > 0 && results.every(Boolean);
}

if (process.argv.includes('--record')) record();
else process.exitCode = check() ? 0 : 1;
