import ipaddr from 'ipaddr.js';

/** With a port behind it, as some proxies write it. */
const WITH_PORT = /^(?:\[([^\]]*)\]|([\d.]+))(?::\d+)?$/;

/**
 * What of an address counts as one: an IPv6 network of 64 bits, which one subscriber has at least
 * (RFC 6177); an IPv4 address as it is, also written as IPv6. What is no address is all one: who
 * makes it up gets no count of their own.
 */
export function networkOf(text: string): string {
  const [, bracketed, v4] = WITH_PORT.exec(text) ?? [];
  const plain = (bracketed ?? v4 ?? text).split('%')[0] ?? '';
  if (!ipaddr.IPv4.isValidFourPartDecimal(plain) && !ipaddr.IPv6.isValid(plain)) return '';
  const address = ipaddr.process(plain);
  if (address instanceof ipaddr.IPv4) return address.toString();
  const network = address.parts.slice(0, 4).map((group) => group.toString(16));
  return `${network.join(':')}::/64`;
}
