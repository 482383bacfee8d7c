import type { ExpectedFaults, TrunkExpectation } from '../../plan/expected-faults.js';
import { InvalidLocateRequest, type RequestError } from './errors.js';
import type { LocateRequest, RequestTrunk } from './locate-request.js';

/** @throws InvalidLocateRequest naming every table of a place that is not in the request, and every impossible number */
export function checkExpectedFaults(expected: ExpectedFaults, request: LocateRequest): void {
  const errors = checkTable(expected.headEnd, '/expectedFaults/headEnd');
  const drawn = new Map(request.trunks.map((trunk) => [trunk.id, trunk]));
  expected.trunks.forEach((trunk, t) => {
    errors.push(...checkTrunk(trunk, drawn.get(trunk.id), `/expectedFaults/trunks/${t}`));
  });
  if (errors.length > 0) throw new InvalidLocateRequest(errors);
}

function checkTrunk(
  { id, port, nodes }: TrunkExpectation,
  drawn: RequestTrunk | undefined,
  at: string,
): RequestError[] {
  if (!drawn) return [{ pointer: `${at}/id`, reason: `"${id}" is not a trunk of the request` }];
  const errors = checkTable(port, `${at}/port`);
  const known = new Set(drawn.nodes.map((node) => node.id));
  nodes.forEach(({ id: node, ...tables }, n) => {
    if (!known.has(node))
      errors.push({ pointer: `${at}/nodes/${n}/id`, reason: `"${node}" is not a node of "${id}"` });
    for (const [component, table] of Object.entries(tables))
      errors.push(...checkTable(table, `${at}/nodes/${n}/${component}`));
  });
  return errors;
}

function checkTable(table: object, at: string): RequestError[] {
  const errors: RequestError[] = [];
  for (const [mode, expected] of Object.entries<unknown>({ ...table }))
    if (!(typeof expected === 'number' && expected >= 0 && expected < Infinity))
      errors.push({ pointer: `${at}/${mode}`, reason: 'must be a number of at least 0' });
  return errors;
}
