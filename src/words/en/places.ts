import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../../locator/index.js';
import type { NameNode } from '../words.js';

export const EN_HEAD_END = 'the head-end';

export function enPlace(at: Place, nameNode: NameNode): string {
  switch (at.kind) {
    case 'span': {
      const from = at.from === null ? EN_HEAD_END : nameNode(at.trunk, at.from);
      return `between ${from} and ${nameNode(at.trunk, at.to)} on trunk ${at.trunk}`;
    }
    case 'station':
      return `the station in ${nameNode(at.trunk, at.node)} on trunk ${at.trunk}`;
    case 'port':
      return `the head-end’s output for trunk ${at.trunk}`;
    case 'head-end':
      return EN_HEAD_END;
  }
}

export function enComponent(name: ComponentName, at: Place, nameNode: NameNode): string {
  if (at.kind !== 'span')
    return {
      station: 'unit and its settings',
      port: 'fuse and output terminals',
      'head-end': 'head-end',
    }[at.kind];
  if (name === 'cable') return 'cable';
  if (name === 'junction-in') return `terminals at ${nameNode(at.trunk, at.to)} IN`;
  return at.from === null
    ? `terminals at the head-end, trunk ${at.trunk}`
    : `terminals at ${nameNode(at.trunk, at.from)} OUT`;
}
