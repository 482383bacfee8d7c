import { ElectricalError } from './electrical-error.js';

/**
 * The indices of the nodes, each after the one that feeds it. Throws {@link ElectricalError} for a
 * parent that is not there and for a cycle. Linear.
 */
export function feedingOrder(nodes: readonly { parent: number | null }[]): number[] {
  const fedBy = nodes.map((): number[] => []);
  const order: number[] = [];
  nodes.forEach(({ parent }, node) => {
    if (parent === null) {
      order.push(node);
      return;
    }
    const children = fedBy[parent];
    if (children === undefined) {
      throw new ElectricalError('invalid', `nodes/${node}/parent`, `there is no node ${parent}`);
    }
    children.push(node);
  });
  for (let i = 0; i < order.length; i++) {
    order.push(...(fedBy[order[i] ?? 0] ?? []));
  }
  if (order.length < nodes.length) {
    const reached = new Set(order);
    const lost = nodes.findIndex((_, node) => !reached.has(node));
    throw new ElectricalError('invalid', `nodes/${lost}/parent`, 'the node is fed in a circle');
  }
  return order;
}
