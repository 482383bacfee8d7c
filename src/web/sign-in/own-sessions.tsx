import { FailureLine } from '../parts/failure-line.js';
import { useService } from '../parts/service-context.js';
import { Loaded } from '../parts/states.js';
import { local } from '../parts/time-words.js';
import { useRead } from '../parts/use-read.js';
import { useSending } from '../parts/use-sending.js';
import type { OwnSession } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

/** Where one is signed in, and ending it there. */
export function OwnSessions() {
  const service = useService();
  const read = useRead('sessions', () => service.read<{ items: OwnSession[] }>('/sessions'));
  const { isSending, failure, send } = useSending();
  const end = (path: string) =>
    send(async () => {
      await service.send('DELETE', path);
      read.again();
    });
  return (
    <section>
      <h2>{SIGN_IN_WORDS.sessions.title}</h2>
      <FailureLine failure={failure} />
      <Loaded read={read}>
        {({ items }) => (
          <>
            <ul class="plain">
              {items.map((session) => (
                <SessionLine
                  key={session.id}
                  session={session}
                  isSending={isSending}
                  onEnd={() => end(`/sessions/${session.id}`)}
                />
              ))}
            </ul>
            {items.length > 1 && (
              <button type="button" aria-disabled={isSending} onClick={() => end('/sessions')}>
                {SIGN_IN_WORDS.sessions.endOthers}
              </button>
            )}
          </>
        )}
      </Loaded>
    </section>
  );
}

interface SessionLineProps {
  session: OwnSession;
  isSending: boolean;
  onEnd: () => void;
}

function SessionLine({ session, isSending, onEnd }: SessionLineProps) {
  const words = SIGN_IN_WORDS.sessions;
  const { address, userAgent, createdAt, lastSeenAt, current } = session;
  return (
    <li>
      <p>
        {words.since(current ? words.here : address, local(createdAt), local(lastSeenAt))}{' '}
        {!current && (
          <button type="button" class="small" aria-disabled={isSending} onClick={onEnd}>
            {words.end}
            <span class="unseen"> {address}</span>
          </button>
        )}
        <span class="soft breaks"> {userAgent}</span>
      </p>
    </li>
  );
}
