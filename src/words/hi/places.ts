import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../../locator/index.js';
import type { NameNode } from '../words.js';

export const HI_HEAD_END = 'मुख्य यूनिट';

export function hiPlace(at: Place, nameNode: NameNode): string {
  switch (at.kind) {
    case 'span': {
      const from = at.from === null ? HI_HEAD_END : nameNode(at.trunk, at.from);
      return `लाइन ${at.trunk} पर ${from} और ${nameNode(at.trunk, at.to)} के बीच`;
    }
    case 'station':
      return `लाइन ${at.trunk} पर ${nameNode(at.trunk, at.node)} का यंत्र`;
    case 'port':
      return `लाइन ${at.trunk} के लिए मुख्य यूनिट का आउटपुट`;
    case 'head-end':
      return HI_HEAD_END;
  }
}

export function hiComponent(name: ComponentName, at: Place, nameNode: NameNode): string {
  if (at.kind !== 'span')
    return {
      station: 'यंत्र और उसकी सेटिंग',
      port: 'फ़्यूज़ और आउटपुट के टर्मिनल',
      'head-end': 'मुख्य यूनिट',
    }[at.kind];
  if (name === 'cable') return 'केबल';
  if (name === 'junction-in') return `${nameNode(at.trunk, at.to)} में आने वाले टर्मिनल`;
  return at.from === null
    ? `मुख्य यूनिट के टर्मिनल, लाइन ${at.trunk}`
    : `${nameNode(at.trunk, at.from)} से जाने वाले टर्मिनल`;
}
