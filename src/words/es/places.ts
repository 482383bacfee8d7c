import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../../locator/index.js';
import type { NameNode } from '../words.js';

export const ES_HEAD_END = 'la central';

export function esPlace(at: Place, nameNode: NameNode): string {
  switch (at.kind) {
    case 'span': {
      const from = at.from === null ? ES_HEAD_END : nameNode(at.trunk, at.from);
      return `entre ${from} y ${nameNode(at.trunk, at.to)}, en la línea ${at.trunk}`;
    }
    case 'station':
      return `el aparato de ${nameNode(at.trunk, at.node)}, en la línea ${at.trunk}`;
    case 'port':
      return `la salida de la central hacia la línea ${at.trunk}`;
    case 'head-end':
      return ES_HEAD_END;
  }
}

export function esComponent(name: ComponentName, at: Place, nameNode: NameNode): string {
  if (at.kind !== 'span')
    return {
      station: 'aparato y sus ajustes',
      port: 'fusible y bornes de salida',
      'head-end': 'central',
    }[at.kind];
  if (name === 'cable') return 'cable';
  if (name === 'junction-in') return `bornes de ENTRADA en ${nameNode(at.trunk, at.to)}`;
  return at.from === null
    ? `bornes de la central, línea ${at.trunk}`
    : `bornes de SALIDA en ${nameNode(at.trunk, at.from)}`;
}
