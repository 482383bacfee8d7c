import { type CoreSet, RETURN, SELECT, SPEECH, SUPPLY } from '../../plan/cores.js';
import { SPAN_EFFECTS, SPAN_MODES } from '../../plan/modes.js';
import { FEED_CLASSES } from '../sweep/feed-classes.js';
import { feedBelow } from '../sweep/space-shape.js';
import { EFFECTS } from '../sweep/states.js';

// What each class of effects (EFFECTS) does, by any of its modes.

/** Cores that can be shorted to return; sets of them count from 0 to 7. */
export const SHORTABLE: CoreSet = SUPPLY | SPEECH | SELECT;

const effectOf = Array.from({ length: EFFECTS.count }, (_, effect) => {
  const mode = SPAN_MODES.find((__, m) => EFFECTS.ofMode[m] === effect);
  if (mode === undefined) throw new RangeError('a class of effects without a mode');
  return SPAN_EFFECTS[mode];
});

/** Class of feed below, at effect * FEED_CLASSES + class above. */
export const FEED_AFTER = Uint8Array.from(
  effectOf.flatMap((effect) =>
    Array.from({ length: FEED_CLASSES }, (_, feed) => feedBelow(effect, feed)),
  ),
);

/** Cores shorted here. */
export const SHORTS_OF = Uint8Array.from(effectOf, ({ shorts }) => shorts);

/** Cores whose short below cannot be seen from above. */
export const HIDES_OF = Uint8Array.from(effectOf, ({ removes }) =>
  removes & RETURN ? SHORTABLE : removes & SHORTABLE,
);
