/** JSON pointer of the first text in a body that holds the character NUL, if there is one. */
export function findNul(value: unknown, pointer = ''): string | undefined {
  if (typeof value === 'string') return value.includes('\0') ? pointer : undefined;
  if (typeof value !== 'object' || value === null) return undefined;
  for (const [key, member] of Object.entries(value)) {
    const found = findNul(member, `${pointer}/${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}
