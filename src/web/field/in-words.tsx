import { useLocation } from 'preact-iso';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { CautionList } from './cautions.js';
import { useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import { type Done, MENDING_FIELDS, MendingFields } from './found-form.js';
import type { KeptInWords } from './kept-work.js';
import { Begin, ToldList } from './step-view.js';
import type { FieldTicketProps } from './ticket-page.js';
import { toldInWords } from './told-so-far.js';
import { useClosedHere } from './use-closed-here.js';
import { useField, useUntold } from './use-field.js';

/** A ticket of a site that nobody has drawn: what was said and by whom, and what can be entered all the same. */
export function InWordsView(props: FieldTicketProps<KeptInWords>) {
  const { kept, home, visit } = props;
  const { ticket, inWords } = kept.value;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const told = toldInWords(inWords, ticket.id, useUntold(kept));
  const { menu } = FIELD_WORDS;
  const links: [to: string, words: string][] = [
    [`${home}/found`, menu.found],
    [`${home}/note`, menu.note],
    [`${home}/photo`, menu.photo],
  ];
  if (!useClosedHere(kept)) links.push([`${home}/close`, FIELD_WORDS.close]);
  if (visit !== undefined) links.push([`/field/visits/${visit.id}`, menu.end]);
  return (
    <>
      <Begin {...props} />
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.notDrawn}
      </h1>
      {inWords.urgentReason !== null && (
        <p class="strong">{FIELD_WORDS.urgent(inWords.urgentReason)}</p>
      )}
      <CallBack inWords={inWords} />
      <ToldList told={told} />
      {inWords.site.address !== null && <p>{inWords.site.address}</p>}
      <ul class="menu">
        {links.map(([to, words]) => (
          <li key={to}>
            <a class="button wide" href={to}>
              {words}
            </a>
          </li>
        ))}
      </ul>
      <details>
        <summary>{FIELD_WORDS.cautions}</summary>
        <CautionList cautions={inWords.cautions} />
      </details>
    </>
  );
}

/** The number that was left last, one touch away. */
function CallBack({ inWords: { said } }: Pick<KeptInWords, 'inWords'>) {
  const left = said.filter(({ callBackPhone }) => callBackPhone !== null).at(-1)?.callBackPhone;
  if (left == null) return null;
  return (
    <p>
      <a class="button wide" href={`tel:${left.replaceAll(/[^\d+]/g, '')}`}>
        {FIELD_WORDS.callBack(left)}
      </a>
    </p>
  );
}

/** What was mended, where there are no rooms on record to try. */
export function MendedInWords({ kept, subject, home }: FieldTicketProps<KeptInWords>) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { route } = useLocation();
  const mended = (done: Done, settle: () => void) => {
    const saidBy = { name: person.name, kind: 'technician' };
    const path = `/tickets/${kept.value.ticket.id}/mendings`;
    entering.enter([{ path, body: { saidBy, ...done }, words: done.what }], () => {
      settle();
      route(home);
    });
  };
  return (
    <EntrySection title={FIELD_WORDS.menu.found} entering={entering} fields={MENDING_FIELDS}>
      <MendingFields
        of={kept.value.ticket.id}
        first=""
        button={FIELD_WORDS.enter}
        {...entering}
        onDone={mended}
      />
    </EntrySection>
  );
}
