import { useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import { ChooseField, TicksField } from '../parts/choose-field.js';
import { FailureLine } from '../parts/failure-line.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { useService } from '../parts/service-context.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { NewNoticeWish, ReadSite } from '../parts/wire.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

const words = SIGN_IN_WORDS.notices;

const KINDS = (['new-report', 'breach-near', 'visit-tomorrow', 'work-to-sign'] as const).map(
  (id) => ({ id, name: words.kinds[id] }),
);
const FIELDS = ['/kinds', '/siteId', '/url'];

/** What is entered; the id is kept until it was answered, so that what arrived is not asked for twice. */
const startAnew = () => ({ id: uuidv7(), way: 'mail', kinds: [] as string[], siteId: '', url: '' });

interface NoticeFormProps {
  sites: readonly ReadSite[];
  onMade: () => void;
}

function useNoticeForm(onMade: () => void) {
  const service = useService();
  const [given, setGiven] = useState(startAnew);
  const [made, setMade] = useState<NewNoticeWish>();
  const { isSending, failure, send } = useSending();
  const submit = (event: Event) => {
    event.preventDefault();
    setMade(undefined);
    send(async () => {
      const { id, way, kinds, siteId, url } = given;
      const body = {
        id,
        way,
        kinds,
        language: PAGE_LANGUAGE,
        ...(siteId !== '' && { siteId }),
        ...(way === 'webhook' && { url: url.trim() }),
      };
      setMade(await service.send<NewNoticeWish>('POST', '/notice-wishes', { body }));
      setGiven(startAnew());
      onMade();
    });
  };
  const give = (more: Partial<typeof given>) =>
    // Other content is another wish.
    setGiven({ ...given, ...more, id: uuidv7() });
  return { given, give, made, isSending, failure, submit };
}

/** Asks for mails to oneself; an owner also for webhooks, whose secret is shown once. */
export function NoticeForm({ sites, onMade }: NoticeFormProps) {
  const { given, give, made, isSending, failure, submit } = useNoticeForm(onMade);
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const { role } = useService().session.person;
  const ways = (['mail', 'webhook'] as const).map((value) => ({ value, words: words.ways[value] }));
  const siteChoices = sites.map(({ id, name }) => ({ value: id, words: name }));
  return (
    <details>
      <summary>{words.make}</summary>
      <form onSubmit={submit} noValidate ref={form}>
        <TicksField
          legend={words.what}
          choices={KINDS}
          chosen={given.kinds}
          onChosen={(kinds) => give({ kinds })}
          error={failure?.sentenceFor('/kinds')}
        />
        <ChooseField
          label={words.site}
          value={given.siteId}
          onValue={(siteId) => give({ siteId })}
          choices={[{ value: '', words: words.everySite }, ...siteChoices]}
          error={failure?.sentenceFor('/siteId')}
        />
        {role === 'owner' && (
          <ChooseField
            label={words.way}
            value={given.way}
            onValue={(way) => give({ way })}
            choices={ways}
          />
        )}
        {given.way === 'webhook' && (
          <TextField
            label={words.url}
            hint={words.urlHint}
            autocomplete="off"
            maxLength={2000}
            value={given.url}
            onValue={(url) => give({ url })}
            error={failure?.sentenceFor('/url')}
          />
        )}
        <FailureLine failure={failure} fields={FIELDS} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {words.button}
        </button>
      </form>
      {made !== undefined && <Asked made={made} />}
    </details>
  );
}

function Asked({ made }: { made: NewNoticeWish }) {
  return (
    <p role="status">
      {words.asked}
      {made.signingSecret !== null && (
        <>
          {' '}
          {words.secretOnce} <code class="breaks">{made.signingSecret}</code>
        </>
      )}
    </p>
  );
}
