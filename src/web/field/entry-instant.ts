import type { OutboxEntry } from './outbox.js';

type Sent = Pick<OutboxEntry, 'path' | 'body'>;

/** What is sent, with when it was so. */
export function withInstant({ path, body }: Sent, happenedAt: string): OutboxEntry['body'] {
  const instant = instantOf(path);
  return instant === null ? body : { ...body, [instant]: happenedAt };
}

/** What each route calls the instant at which something was so; null where it takes none, or where the form says it. */
function instantOf(path: string): string | null {
  const [, collection, , route] = path.split('/');
  if (route === undefined || route === 'signatures') return null;
  if (route === 'readings' || route === 'photos') return 'takenAt';
  if (collection !== 'visits') return 'saidAt';
  return route === 'moves' ? 'at' : 'testedAt';
}
