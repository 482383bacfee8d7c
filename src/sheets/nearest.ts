/** The candidate that a slip of the pen or two turns into the word; undefined when none is that close. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  let bestEdits = Math.min(3, Math.ceil(word.length / 2));
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= bestEdits) continue;
    const edits = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (edits < bestEdits) [best, bestEdits] = [candidate, edits];
  }
  return best;
}

/** Levenshtein distance: the fewest letters to insert, delete or replace. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replace = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replace, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
