import type { Component, RateTables } from '../locator/index.js';
import type { AsBuilt, RecordNode } from '../sites/as-built.js';

/** A component of a site with what its rates are learned by. */
export interface ClassedComponent {
  component: Component;
  /** Make of cable, kind of terminal, model of station or head-end. */
  className: string;
  group: keyof RateTables;
  /** What a year counts: the metres of a cable, else one. */
  yearlyExposure: number;
}

/**
 * Every component of a site. A junction is a joint at somebody's terminals: its kind is the model of the unit there, or a
 * junction box, or the head-end.
 */
export function componentsOfSite({ headEnd, trunks }: AsBuilt): ClassedComponent[] {
  const headEndModel = headEnd.model ?? 'unknown';
  return [
    one({ component: 'head-end' }, `head-end ${headEndModel}`, 'headEnd'),
    ...trunks.flatMap(({ trunk, nodes }) => {
      const byCode = new Map(nodes.map((node) => [node.node, node]));
      return [
        one({ component: 'port', trunk }, `port ${headEndModel}`, 'port'),
        ...nodes.flatMap((node) => {
          const feeder = node.fedFrom === null ? undefined : byCode.get(node.fedFrom);
          const above = feeder === undefined ? `head-end ${headEndModel}` : terminalsOf(feeder);
          return componentsOfNode(trunk, node, above);
        }),
      ];
    }),
  ];
}

function componentsOfNode(trunk: string, drawn: RecordNode, above: string): ClassedComponent[] {
  const { node, kind, cableType, cableMetres, unitModel } = drawn;
  const at = { trunk, node };
  const list = [
    one({ component: 'junction-out', ...at }, `terminals ${above}`, 'junction'),
    one(
      { component: 'cable', ...at },
      `cable ${cableType ?? 'unknown'}`,
      'cablePerMetre',
      cableMetres,
    ),
    one({ component: 'junction-in', ...at }, `terminals ${terminalsOf(drawn)}`, 'junction'),
  ];
  if (kind === 'station')
    list.push(one({ component: 'station', ...at }, `station ${unitModel ?? 'unknown'}`, 'station'));
  return list;
}

function terminalsOf({ kind, unitModel }: RecordNode): string {
  return kind === 'junction-box' ? 'junction box' : `station ${unitModel ?? 'unknown'}`;
}

function one(
  component: Component,
  className: string,
  group: keyof RateTables,
  yearlyExposure = 1,
): ClassedComponent {
  return { component, className, group, yearlyExposure };
}
