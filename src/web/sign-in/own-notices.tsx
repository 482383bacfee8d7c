import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { PAGE_FORMATS } from '../parts/language.js';
import { useService } from '../parts/service-context.js';
import { Loaded } from '../parts/states.js';
import { local } from '../parts/time-words.js';
import { useRead } from '../parts/use-read.js';
import { useSending } from '../parts/use-sending.js';
import type { ReadNoticeWish, ReadPerson, ReadSite, ToldNotice } from '../parts/wire.js';
import { NoticeForm } from './notice-form.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

const words = SIGN_IN_WORDS.notices;

/** What one asked to be told of, and for an owner what everybody did; each can be ended, or asked for. */
export function OwnNotices() {
  const service = useService();
  const { id, role } = service.session.person;
  const read = useRead('notices', async () => {
    const [wishes, sites, people] = await Promise.all([
      service.read<{ items: ReadNoticeWish[] }>('/notice-wishes'),
      service.list<ReadSite>('/sites'),
      role === 'owner' ? service.list<ReadPerson>('/people') : { items: [] },
    ]);
    return { wishes: wishes.items, sites: sites.items, people: people.items };
  });
  return (
    <section id="notices">
      <h2>{words.title}</h2>
      <p class="hint">{words.wayOut}</p>
      <Loaded read={read}>
        {({ wishes, sites, people }) => {
          const own = wishes.filter(({ personId }) => personId === id);
          const others = wishes.filter(({ personId }) => personId !== id);
          const more = { sites, people, onEnded: read.again };
          return (
            <>
              {own.length === 0 && <p>{words.none}</p>}
              <WishList wishes={own} {...more} />
              <NoticeForm sites={sites} onMade={read.again} />
              {role === 'owner' && (
                <>
                  <h3>{words.others}</h3>
                  {others.length === 0 && <p>{words.noOthers}</p>}
                  <WishList wishes={others} {...more} />
                </>
              )}
            </>
          );
        }}
      </Loaded>
    </section>
  );
}

interface WishListProps {
  wishes: readonly ReadNoticeWish[];
  sites: readonly ReadSite[];
  people: readonly ReadPerson[];
  onEnded: () => void;
}

function WishList({ wishes, sites, people, onEnded }: WishListProps) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const { id: ownId } = service.session.person;
  const end = (id: string) =>
    send(async () => {
      await service.send('POST', `/notice-wishes/${id}/end`);
      onEnded();
    });
  const ofPerson = (id: string) =>
    id === ownId ? '' : `; ${words.of(people.find((one) => one.id === id)?.name ?? words.someone)}`;
  return (
    <>
      <FailureLine failure={failure} />
      <ul class="plain">
        {wishes.map((wish) => (
          <li key={wish.id}>
            <p class="breaks">
              {wishInWords(wish, sites)}
              {ofPerson(wish.personId)}{' '}
              {wish.endedAt !== null ? (
                <span class="soft">({words.ended})</span>
              ) : (
                <button
                  type="button"
                  class="small"
                  aria-disabled={isSending}
                  onClick={() => end(wish.id)}
                >
                  {words.end}
                  <span class="unseen">: {wishInWords(wish, sites)}</span>
                </button>
              )}
            </p>
            <Told wish={wish} />
          </li>
        ))}
      </ul>
    </>
  );
}

function wishInWords(
  { way, kinds, siteId, url }: ReadNoticeWish,
  sites: readonly ReadSite[],
): string {
  const what = PAGE_FORMATS.and(kinds.map((kind) => words.kinds[kind]));
  const site = sites.find(({ id }) => id === siteId)?.name ?? siteId ?? words.everySite;
  return way === 'mail' ? words.byMail(what, site) : words.byWebhook(what, site, url ?? '');
}

/** What was told by it; read once it is looked at. */
function Told({ wish }: { wish: ReadNoticeWish }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.told}</summary>
      {isOpen && <ToldList id={wish.id} />}
    </details>
  );
}

function ToldList({ id }: { id: string }) {
  const service = useService();
  const read = useRead(`told ${id}`, () =>
    service.read<{ items: ToldNotice[] }>(`/notice-wishes/${id}/notices`),
  );
  return (
    <Loaded read={read}>
      {({ items }) => (
        <ul>
          {items.length === 0 && <li>{words.notTold}</li>}
          {items.map(({ id: noticeId, kind, createdAt, sentAt, tries, failure }) => (
            <li key={noticeId}>
              {sentAt === null
                ? words.waiting(words.kinds[kind], local(createdAt), tries)
                : words.sent(words.kinds[kind], local(sentAt))}
              {failure !== null && <span class="soft"> {failure}</span>}
            </li>
          ))}
        </ul>
      )}
    </Loaded>
  );
}
