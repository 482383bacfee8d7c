import { type CoreSet, RETURN } from '../../plan/cores.js';
import { EFFECTS, FEED_CLASSES, FEEDS } from './default-system.js';

// What each class of effects (EFFECTS) does, by any of its modes.

/** Cores that can be shorted to return; sets of them count from 0 to 7. */
export const SHORTABLE: CoreSet = FEEDS.shortable;

const effectOf = EFFECTS.does;

/** Class of feed below, at effect * FEED_CLASSES + class above. */
export const FEED_AFTER = Uint8Array.from(
  effectOf.flatMap((effect) =>
    Array.from({ length: FEED_CLASSES }, (_, feed) => FEEDS.below(effect, feed)),
  ),
);

/** Cores shorted here. */
export const SHORTS_OF = Uint8Array.from(effectOf, ({ shorts }) => shorts);

/** Cores whose short below cannot be seen from above. */
export const HIDES_OF = Uint8Array.from(effectOf, ({ removes }) =>
  removes & RETURN ? SHORTABLE : removes & SHORTABLE,
);
