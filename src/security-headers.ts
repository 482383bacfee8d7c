/** Pages load nothing but what the service itself serves, and nobody frames them. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join(';');

/** On every answer. They are the same for all, so that a read does not work them out anew. */
export const SECURITY_HEADERS = {
  'content-security-policy': POLICY,
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'origin-agent-cluster': '?1',
  'referrer-policy': 'no-referrer',
  'strict-transport-security': 'max-age=31536000; includeSubDomains',
  'x-content-type-options': 'nosniff',
  'x-dns-prefetch-control': 'off',
  'x-download-options': 'noopen',
  'x-frame-options': 'DENY',
  'x-permitted-cross-domain-policies': 'none',
  'x-xss-protection': '0',
} as const;

/** The page that shows the API document brings style elements of its own; no other page has any. */
export const POLICY_OF_DOCUMENT = {
  'content-security-policy': POLICY.replace("style-src 'self'", "style-src 'self' 'unsafe-inline'"),
} as const;
