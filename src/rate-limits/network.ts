/**
 * What of an address counts as one: an IPv6 network of 64 bits, which one subscriber has at least
 * (RFC 6177); an IPv4 address as it is, also written as IPv6.
 */
export function networkOf(address: string): string {
  const plain = address.split('%')[0] ?? '';
  const v4 = /^(?:::ffff:)?(\d+\.\d+\.\d+\.\d+)$/i.exec(plain)?.[1];
  if (v4 !== undefined) return v4;
  if (!plain.includes(':')) return plain;
  const [head = '', tail] = plain.toLowerCase().split('::');
  const before = groupsOf(head);
  const after = groupsOf(tail ?? '');
  const missing = tail === undefined ? 0 : Math.max(0, 8 - before.length - after.length);
  const groups = [...before, ...Array<string>(missing).fill('0'), ...after];
  const network = groups.slice(0, 4).map((group) => parseInt(group, 16).toString(16));
  return `${network.join(':')}::/64`;
}

/** The last two groups may be written as IPv4. */
function groupsOf(text: string): string[] {
  return text.split(':').flatMap((group) => {
    if (group === '') return [];
    return group.includes('.') ? ['0', '0'] : [group];
  });
}
