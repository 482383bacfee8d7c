import { useEffect } from 'preact/hooks';
import { whileLookedAt } from '../parts/while-looked-at.js';

const EVERY_MS = 30_000;

/** Reads anew what the page shows, for as long as it is open. */
export function useLive(again: () => void): void {
  useEffect(() => whileLookedAt(again, EVERY_MS), [again]);
}
