import type { FunctionName } from '../../plan/functions.js';
import { type FurtherLeftOut, leftOutWords, type PlainLeftOut } from '../left-out-words.js';

/** As one speaks of a function by itself. */
export const EN_ONE: Readonly<Record<FunctionName, string>> = {
  lamp: 'the lamp',
  announcement: 'an announcement',
  bell: 'the bell',
  music: 'music',
  'room-call': 'a call to the room',
  talkback: 'talking back',
};

const PLAIN: Readonly<Record<PlainLeftOut, string>> = {
  withdrawn: 'was withdrawn',
  'before-closing': 'is from before the ticket was closed',
  'before-mending': 'is from before a mending',
  'after-mending': 'is from after a mending, since which nothing was said not to work',
  'said-again': 'was said again by the same person',
  'looked-again': 'was looked at again by the same person',
  'read-again': 'was taken again by the same person',
  'no-such-place': 'is of a place that the ticket’s drawing does not have',
  'unit-out': 'is of a unit that is bridged over or taken out',
  'no-such-group':
    'is of a group that the ticket’s drawing does not have, or has too many others beside',
};

function further(why: FurtherLeftOut): string {
  switch (why.kind) {
    case 'no-such-node':
      return `is of ${why.node}, which the ticket’s drawing does not have`;
    case 'no-such-disconnection':
      return `was disconnected below ${why.node}, which the ticket’s drawing does not have`;
    case 'room-out':
      return `${why.room} is bridged over or taken out, the record says`;
    case 'never-fitted':
      return `the unit in ${why.room} was never fitted for ${EN_ONE[why.function]}`;
    case 'other-disconnections':
      return `is beside the last ${why.most} places at which trunk ${why.trunk} was disconnected, which are gone by`;
    case 'older':
      return `is older than the last ${why.most}, which are all that is gone by`;
    case 'not-on-record':
      return `needs what the as-built record does not say: ${why.missing.join(', ')} of the head-end`;
    case 'refused':
      return why.reason;
  }
}

export const EN_LEFT_OUT = leftOutWords(PLAIN, further);
