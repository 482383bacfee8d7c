/** A mode of the head-end as answers name it: those of a group carry its name after a colon. */
export function namedGroup(name: string): { mode: string; group: string } {
  const colon = name.indexOf(':');
  return colon < 0
    ? { mode: name, group: '' }
    : { mode: name.slice(0, colon), group: name.slice(colon + 1) };
}
