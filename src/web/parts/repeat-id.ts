import type { Kept } from './kept.js';

/**
 * The id that content is sent with: the same content again has the same id, so that what arrived
 * although its answer was lost is not taken twice; other content has another.
 */
export function repeatId(
  kept: Kept,
  purpose: string,
  content: unknown,
  newId: () => string,
): string {
  const text = JSON.stringify(content);
  const earlier = kept.read<{ id: string; text: string }>(`sending ${purpose}`);
  if (earlier?.text === text) return earlier.id;
  const id = newId();
  kept.write(`sending ${purpose}`, { id, text });
  return id;
}

/** To be called once it was answered: the same said anew is another thing. */
export function forgetId(kept: Kept, purpose: string): void {
  kept.write(`sending ${purpose}`, undefined);
}
