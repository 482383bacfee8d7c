import type { ComponentChildren } from 'preact';
import { PAGE_FORMATS } from '../../parts/language.js';
import { useService } from '../../parts/service-context.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadPerson } from '../../parts/wire.js';
import { CONTRACT_WORDS } from '../words/words.js';

const KEEPERS: readonly string[] = ['owner', 'contract-manager'];

/** What only who keeps contracts may see; everybody else is told who that is. */
export function KeepersOnly({ title, children }: { title: string; children: ComponentChildren }) {
  const { role } = useService().session.person;
  return KEEPERS.includes(role) ? <>{children}</> : <WhomToAsk title={title} />;
}

function WhomToAsk({ title }: { title: string }) {
  const service = useService();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const isOffice = service.session.person.role === 'dispatcher';
  // A technician is given no list of people.
  const read = useRead('who keeps contracts', async () =>
    isOffice ? (await service.list<ReadPerson>('/people')).items : [],
  );
  const keepers = (read.value ?? []).filter(({ work }) => KEEPERS.includes(work));
  return (
    <section class="narrow">
      <h1 tabIndex={-1} ref={heading}>
        {title}
      </h1>
      <p>{CONTRACT_WORDS.keepersOnly}</p>
      {keepers.length > 0 && (
        <p>{CONTRACT_WORDS.askOneOf(PAGE_FORMATS.or(keepers.map(({ name }) => name)))}</p>
      )}
      <p>
        <a href="/desk/contracts">{CONTRACT_WORDS.back}</a>
      </p>
    </section>
  );
}
