import type { JointCandidateAnswer } from '../locator/index.js';
import { componentInWords } from './component-in-words.js';
import type { NameNode } from '../sites/drawing.js';
import { placeInWords } from './place-in-words.js';

/** A bad joint in words: "a bad joint in the terminals at Room 9 IN on trunk A, about 3 ohm (1.2 to 7.5), 72 %". */
export function jointInWords(
  { place, component, ohms, probability }: JointCandidateAnswer,
  nameNode: NameNode,
): string {
  const words = componentInWords(component, place, nameNode);
  const where =
    component === 'cable' ? `the cable ${placeInWords(place, nameNode)}` : `the ${words}`;
  const on = where.includes(`trunk ${place.trunk}`) ? '' : ` on trunk ${place.trunk}`;
  const size = `about ${figure(ohms.median)} ohm (${figure(ohms.low)} to ${figure(ohms.high)})`;
  return `a bad joint in ${where}${on}, ${size}, ${Math.round(probability * 100)} %`;
}

function figure(ohms: number): string {
  return String(Number(ohms.toPrecision(2)));
}
