import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../../locator/index.js';
import type { NameNode } from '../words.js';

export const FR_HEAD_END = 'la centrale';

export function frPlace(at: Place, nameNode: NameNode): string {
  switch (at.kind) {
    case 'span': {
      const from = at.from === null ? FR_HEAD_END : nameNode(at.trunk, at.from);
      return `entre ${from} et ${nameNode(at.trunk, at.to)}, sur la ligne ${at.trunk}`;
    }
    case 'station':
      return `l’appareil dans ${nameNode(at.trunk, at.node)}, sur la ligne ${at.trunk}`;
    case 'port':
      return `la sortie de la centrale vers la ligne ${at.trunk}`;
    case 'head-end':
      return FR_HEAD_END;
  }
}

export function frComponent(name: ComponentName, at: Place, nameNode: NameNode): string {
  if (at.kind !== 'span')
    return {
      station: 'appareil et ses réglages',
      port: 'fusible et bornes de sortie',
      'head-end': 'centrale',
    }[at.kind];
  if (name === 'cable') return 'câble';
  if (name === 'junction-in') return `bornes d’ENTRÉE dans ${nameNode(at.trunk, at.to)}`;
  return at.from === null
    ? `bornes de la centrale, ligne ${at.trunk}`
    : `bornes de SORTIE dans ${nameNode(at.trunk, at.from)}`;
}
