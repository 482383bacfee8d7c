import { keepIn } from '../parts/kept.js';
import { today } from '../parts/local-day.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { ReadKit } from '../parts/wire.js';
import { FIELD_WORDS } from './field-words.js';

const kept = keepIn(() => localStorage);

/** Once a day and ticket: who comes again tomorrow reads them again. */
export function haveBeenRead(ticketId: string): boolean {
  return kept.read<string>(`cautions ${ticketId}`) === today();
}

interface CautionsProps {
  kit: Pick<ReadKit, 'site' | 'cautions'>;
  ticketId: string;
  onRead: () => void;
}

/** Before anything else: what can hurt whoever works there, what the site itself has noted first. */
export function Cautions({ kit, ticketId, onRead }: CautionsProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const read = () => {
    kept.write(`cautions ${ticketId}`, today());
    onRead();
  };
  return (
    <section class="cautions">
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.cautions}
      </h1>
      <p class="strong">
        {kit.site.name}
        {kit.site.address !== null && <span class="soft"> {kit.site.address}</span>}
      </p>
      <CautionList cautions={kit.cautions} />
      <button type="button" class="main" onClick={read}>
        {FIELD_WORDS.cautionsRead}
      </button>
    </section>
  );
}

export function CautionList({ cautions }: { cautions: readonly string[] }) {
  return (
    <ul>
      {cautions.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  );
}
