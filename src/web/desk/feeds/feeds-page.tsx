import { useLocation } from 'preact-iso';
import { useEffect, useState } from 'preact/hooks';
import { FailureLine } from '../../parts/failure-line.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { local } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadFeed, ReadPerson, ReadSite } from '../../parts/wire.js';
import { MakeFeed } from './make-feed.js';
import { FEED_WORDS } from '../words/words.js';

/** Whose visits a link can show: `key` is "" for one's own, else "technician ID" or "site ID". */
export interface FeedSubject {
  key: string;
  words: string;
}

interface FeedsRead {
  feeds: ReadFeed[];
  subjects: FeedSubject[];
}

/** Links by which calendar programs read visits: made, shown once, ended. */
export function FeedsPage() {
  const service = useService();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { site = '' } = useLocation().query;
  const read = useRead('calendar links', () => readFeeds(service));
  useEffect(() => {
    document.title = FEED_WORDS.title;
  }, []);
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {FEED_WORDS.title}
      </h1>
      <p class="hint">{FEED_WORDS.hint}</p>
      <Loaded read={read}>
        {({ feeds, subjects }) => (
          <>
            <MakeFeed
              subjects={subjects}
              first={site === '' ? '' : `site ${site}`}
              onMade={read.again}
            />
            <Feeds feeds={feeds} subjects={subjects} onEnded={read.again} />
          </>
        )}
      </Loaded>
    </article>
  );
}

async function readFeeds(service: Service): Promise<FeedsRead> {
  const { id, name, role } = service.session.person;
  const isOffice = role !== 'technician';
  const [feeds, people, sites] = await Promise.all([
    service.read<{ items: ReadFeed[] }>('/calendars'),
    isOffice ? service.list<ReadPerson>('/people') : { items: [] },
    isOffice ? service.list<ReadSite>('/sites') : { items: [] },
  ]);
  const others = people.items.filter((one) => one.id !== id && one.work === 'technician');
  const subjects = [
    { key: '', words: FEED_WORDS.own(name) },
    ...others.map((one) => ({ key: `technician ${one.id}`, words: FEED_WORDS.of(one.name) })),
    ...sites.items.map((one) => ({ key: `site ${one.id}`, words: FEED_WORDS.to(one.name) })),
  ];
  return { feeds: feeds.items, subjects };
}

function Feeds({ feeds, subjects, onEnded }: FeedsRead & { onEnded: () => void }) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const [done, setDone] = useState('');
  const ownId = service.session.person.id;
  const whose = ({ technicianId, siteId }: ReadFeed) => {
    const key = siteId !== null ? `site ${siteId}` : `technician ${technicianId}`;
    const own = key === `technician ${ownId}` ? '' : key;
    return subjects.find((one) => one.key === own)?.words ?? FEED_WORDS.gone;
  };
  const end = (feed: ReadFeed) =>
    send(async () => {
      await service.send('POST', `/calendars/${feed.id}/end`);
      setDone(FEED_WORDS.endedNow(whose(feed)));
      onEnded();
    });
  return (
    <section>
      <h2>{FEED_WORDS.made}</h2>
      <p role="status">{done}</p>
      <FailureLine failure={failure} />
      {feeds.length === 0 ? (
        <p class="empty">{FEED_WORDS.none}</p>
      ) : (
        <div class="scrolls" tabIndex={0} role="region" aria-label={FEED_WORDS.made}>
          <table class="stacks">
            <thead>
              <tr>
                {[FEED_WORDS.visits, FEED_WORDS.madeAt, FEED_WORDS.readAt, FEED_WORDS.state].map(
                  (head) => (
                    <th key={head} scope="col">
                      {head}
                    </th>
                  ),
                )}
              </tr>
            </thead>
            <tbody>
              {feeds.map((feed) => (
                <FeedRow
                  key={feed.id}
                  feed={feed}
                  whose={whose(feed)}
                  isSending={isSending}
                  onEnd={() => end(feed)}
                />
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

interface FeedRowProps {
  feed: ReadFeed;
  whose: string;
  isSending: boolean;
  onEnd: () => void;
}

function FeedRow({ feed, whose, isSending, onEnd }: FeedRowProps) {
  const { createdAt, madeBy, lastReadAt, endedAt } = feed;
  const madeAt = local(createdAt);
  return (
    <tr>
      <th scope="row">{whose}</th>
      <td data-head={FEED_WORDS.madeAt}>
        {madeBy === null ? madeAt : FEED_WORDS.madeBy(madeAt, madeBy)}
      </td>
      <td data-head={FEED_WORDS.readAt}>
        {lastReadAt === null ? FEED_WORDS.neverRead : local(lastReadAt)}
      </td>
      <td data-head={FEED_WORDS.state}>
        {endedAt !== null ? (
          FEED_WORDS.ended(local(endedAt))
        ) : (
          <>
            {FEED_WORDS.works}{' '}
            <button type="button" class="small" aria-disabled={isSending} onClick={onEnd}>
              {FEED_WORDS.end}
              <span class="unseen">
                {' '}
                {whose}, {madeAt}
              </span>
            </button>
          </>
        )}
      </td>
    </tr>
  );
}
