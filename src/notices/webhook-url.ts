/** What is wrong with where a webhook is to go; null: nothing. What its name stands for is looked at when it is sent. */
export function refuseWebhookUrl(url: string | null, reachesPrivate: boolean): string | null {
  if (url === null) return 'is missing: where the webhook is sent';
  if (!URL.canParse(url)) return 'is not a URL';
  const { protocol, username, password, hash } = new URL(url);
  const isAllowed = protocol === 'https:' || (reachesPrivate && protocol === 'http:');
  if (!isAllowed) return 'must begin with https://';
  if (username !== '' || password !== '') return 'must be without a name and a password';
  return hash === '' ? null : 'must be without a part behind #';
}
