import { useLocation } from 'preact-iso';
import { useEffect, useId, useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { PhotoList } from '../parts/photo-list.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { Listed, ReadPhoto } from '../parts/wire.js';
import { base64Of } from '../parts/base64-of.js';
import { useEntering } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import type { EntrySubject } from './outbox.js';
import { shrinkPhoto } from './shrink-photo.js';
import type { AnyKeptTicket, FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';

/** A photo of a ticket, and those that there are. */
export function PhotoForm({ kept, subject }: FieldTicketProps<AnyKeptTicket>) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.menu.photo}
      </h1>
      <Photos of={`/tickets/${kept.value.ticket.id}`} subject={subject} />
    </section>
  );
}

interface PhotosProps {
  /** Below /api/v1 */
  of: string;
  subject: EntrySubject;
}

/** Taking one, those that wait here, and those that the service has, where it is reached. */
export function Photos({ of, subject }: PhotosProps) {
  const { entries } = useField();
  const path = `${of}/photos`;
  const waiting = entries.filter((entry) => entry.path === path && entry.state !== 'taken').length;
  const photos = usePhotos(path);
  return (
    <>
      <TakePhoto path={path} subject={subject} />
      {waiting > 0 && <p role="status">{FIELD_WORDS.photo.waiting(waiting)}</p>}
      {photos === undefined ? null : <PhotoList photos={photos} words={FIELD_WORDS.photo} />}
    </>
  );
}

function usePhotos(path: string): ReadPhoto[] | undefined {
  const { readings } = useField();
  const [photos, setPhotos] = useState<ReadPhoto[]>();
  useEffect(() => {
    let isShown = true;
    ask<Listed<ReadPhoto>>('GET', `${path}?limit=200`).then(
      ({ items }) => isShown && setPhotos(items),
      (error: unknown) => {
        if (!(error instanceof Failure)) throw error;
      },
    );
    return () => {
      isShown = false;
    };
  }, [path, readings]);
  return photos;
}

interface Chosen {
  picture: Blob;
  shown: string;
}

async function shownAs(picture: Blob): Promise<string> {
  return `data:image/jpeg;base64,${await base64Of(picture)}`;
}

/** Choosing one, made small enough to be sent. */
function useChosen(before: Blob | undefined) {
  const [chosen, setChosen] = useState<Chosen>();
  const [isUnread, setUnread] = useState(false);
  useEffect(() => {
    if (before === undefined) return;
    const show = async () => setChosen({ picture: before, shown: await shownAs(before) });
    show().catch(() => setUnread(true));
  }, [before]);
  const choose = async (input: HTMLInputElement) => {
    const [file] = input.files ?? [];
    if (file === undefined) return;
    setUnread(false);
    try {
      const picture = await shrinkPhoto(file);
      setChosen({ picture, shown: await shownAs(picture) });
    } catch {
      setChosen(undefined);
      setUnread(true);
    }
    // The same picture may be chosen again.
    input.value = '';
  };
  return { chosen, isUnread, choose, clear: () => setChosen(undefined) };
}

function TakePhoto({ path, subject }: { path: string; subject: EntrySubject }) {
  const id = useId();
  const { path: here, route, query } = useLocation();
  const { enter, failure, instead, refused, wrong } = useEntering(subject);
  const { chosen, isUnread, choose, clear } = useChosen(instead?.picture);
  const [caption, setCaption] = useState((instead?.body['caption'] as string | null) ?? '');
  const keep = () => {
    if (chosen === undefined) return;
    const said = caption.trim();
    const words = FIELD_WORDS.photo.words(said);
    const body = { caption: said || null };
    enter([{ path, body, words, picture: chosen.picture }], () => {
      clear();
      setCaption('');
      if (query['instead'] !== undefined) route(here);
    });
  };
  return (
    <>
      <p class="field">
        <label for={id}>{FIELD_WORDS.photo.choose}</label>
        <input
          id={id}
          type="file"
          accept="image/*"
          onChange={(event) => void choose(event.currentTarget)}
        />
      </p>
      {isUnread && (
        <p class="error" role="alert">
          {FIELD_WORDS.photo.unread}
        </p>
      )}
      {chosen !== undefined && (
        <>
          <img class="photo" src={chosen.shown} alt={FIELD_WORDS.photo.noCaption} />
          <TextField
            label={FIELD_WORDS.photo.caption}
            value={caption}
            onValue={setCaption}
            autocomplete="off"
            maxLength={500}
            error={wrong('/caption')}
          />
          <button type="button" class="main" onClick={keep}>
            {FIELD_WORDS.enter}
          </button>
        </>
      )}
      <FailureLine failure={refused} fields={['/caption']} />
      {failure !== undefined && <p class="error">{failure}</p>}
    </>
  );
}
