import { useEffect, useState } from 'preact/hooks';
import { FailureLine } from '../../parts/failure-line.js';
import { PhotoList } from '../../parts/photo-list.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useRead } from '../../parts/use-read.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadPhoto } from '../../parts/wire.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { TICKET_WORDS } from '../words/words.js';

const { photos: WORDS } = TICKET_WORDS;

interface TicketPhotosProps {
  ticketId: string;
  /** Another one each time the ticket is read anew: then these are too. */
  log: readonly unknown[];
}

/** What was photographed, and taking one back. Nothing where there is none. */
export function TicketPhotos({ ticketId, log }: TicketPhotosProps) {
  const service = useService();
  const read = useRead(`photos of ${ticketId}`, () =>
    service.list<ReadPhoto>(`/tickets/${ticketId}/photos`),
  );
  const { again } = read;
  useEffect(again, [again, log]);
  const photos = read.value?.items ?? [];
  if (photos.length === 0) return null;
  return (
    <section>
      <h2>{WORDS.heading}</h2>
      <PhotoList photos={photos} words={WORDS}>
        {(photo) => <TakeBack photo={photo} onDone={read.again} />}
      </PhotoList>
    </section>
  );
}

function TakeBack({ photo, onDone }: { photo: ReadPhoto; onDone: () => void }) {
  const service = useService();
  const { failure, send } = useSending();
  const path = `/photos/${photo.id}/withdraw`;
  const [isOpen, setOpen] = useState(useIsBegun(path));
  const { draft, give, settle } = useDraft(path, { reason: '' });
  const { reason } = draft;
  const submit = (event: Event) => {
    event.preventDefault();
    if (reason.trim() === '') return;
    send(async () => {
      await service.send('POST', path, { body: { reason } });
      settle();
      onDone();
    });
  };
  return (
    <>
      <button type="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
        {WORDS.takeBack}
      </button>
      {isOpen && (
        <form onSubmit={submit} noValidate>
          <TextField
            label={WORDS.why}
            value={reason}
            onValue={(why) => give({ reason: why })}
            autocomplete="off"
            maxLength={2000}
          />
          <FailureLine failure={failure} />
          <button type="submit" aria-disabled={reason.trim() === ''}>
            {WORDS.takeBackNow}
          </button>
        </form>
      )}
    </>
  );
}
