// Causes and accounts of an answer by the names that the oracle gives them.
import type { Cause, LocateResult, Place, Trouble } from '#app/locator/index.js';
import type { Rates } from './oracle/request.js';

export function oraclePlaceName(place: Place): string {
  if (place.kind === 'head-end') return 'head-end';
  if (place.kind === 'port') return `port ${place.trunk}`;
  return `${place.kind} ${place.trunk}/${place.kind === 'span' ? place.to : place.node}`;
}

function causeName(cause: Cause): string {
  switch (cause.kind) {
    case 'head-end':
      return `head-end ${cause.mode}`;
    case 'span':
      return `span ${cause.trunk}/${cause.to} ${cause.component}`;
    case 'station':
      return `station ${cause.trunk}/${cause.node} ${cause.mode}`;
    case 'port':
    case 'short':
    case 'weak-feed':
      return `${cause.kind} ${cause.trunk}`;
    case 'nothing':
    case 'rest':
      return cause.kind;
  }
}

/** By "FUNCTION T/N | CAUSE", and by "FUNCTION T/N within PLACE". */
export function troubleNumbers(troubles: readonly Trouble[]): Rates {
  const numbers: Rates = {};
  for (const { function: name, trunk, node, causes } of troubles)
    for (const { cause, probability, within = [] } of causes) {
      numbers[`${name} ${trunk}/${node} | ${causeName(cause)}`] = probability;
      for (const { place, probability: chance } of within)
        numbers[`${name} ${trunk}/${node} within ${oraclePlaceName(place)}`] = chance;
    }
  return numbers;
}

export function accountNumbers({ places }: LocateResult): Rates {
  return Object.fromEntries(
    places.map(({ place, accounts }) => [oraclePlaceName(place), accounts]),
  );
}
