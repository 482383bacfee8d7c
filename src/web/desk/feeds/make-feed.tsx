import { useRef, useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { NewFeed } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import type { FeedSubject } from './feeds-page.js';
import { FEED_WORDS } from '../words/words.js';

interface MakeFeedProps {
  subjects: readonly FeedSubject[];
  /** Which of them is chosen at first. */
  first: string;
  onMade: () => void;
}

const FIELDS = ['/technicianId', '/siteId'];

/** Makes a link; its secret is shown until it is put away, and is kept nowhere. */
export function MakeFeed({ subjects, first, onMade }: MakeFeedProps) {
  const service = useService();
  const { draft, give, settle } = useDraft(`calendar link ${first}`, { of: first });
  const [link, setLink] = useState<string>();
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const make = (event: Event) => {
    event.preventDefault();
    const [kind, id] = draft.of.split(' ');
    send(async () => {
      const body =
        kind === 'site' ? { siteId: id } : kind === 'technician' ? { technicianId: id } : {};
      setLink((await service.send<NewFeed>('POST', '/calendars', { body })).link);
      settle();
      onMade();
    });
  };
  if (link !== undefined) return <ShownOnce link={link} onDone={() => setLink(undefined)} />;
  return (
    <form class="narrow" onSubmit={make} noValidate ref={form}>
      <ChooseField
        label={FEED_WORDS.whose}
        value={draft.of}
        choices={subjects.map(({ key, words }) => ({ value: key, words }))}
        onValue={(of) => give({ of })}
        error={FIELDS.map((field) => failure?.sentenceFor(field)).find(Boolean)}
      />
      <FailureLine failure={failure} fields={FIELDS} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {FEED_WORDS.make}
      </button>
    </form>
  );
}

function ShownOnce({ link, onDone }: { link: string; onDone: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState('');
  const copy = async () => {
    input.current?.select();
    try {
      await navigator.clipboard.writeText(link);
      setSaid(FEED_WORDS.copied);
    } catch {
      // No right to, or no safe connection: by hand, then.
      setSaid(FEED_WORDS.notCopied);
    }
  };
  return (
    <section class="card narrow">
      <h2 tabIndex={-1} ref={heading}>
        {FEED_WORDS.once}
      </h2>
      <div class="field">
        <label for="calendar-link">{FEED_WORDS.link}</label>
        <input id="calendar-link" ref={input} type="text" readOnly value={link} />
      </div>
      <p class="buttons">
        <button type="button" class="main" onClick={() => void copy()}>
          {FEED_WORDS.copy}
        </button>
        <button type="button" onClick={onDone}>
          {FEED_WORDS.done}
        </button>
      </p>
      <p role="status">{said}</p>
    </section>
  );
}
