import { useFocusOnAppearing } from '../parts/use-focus.js';
import { FIELD_WORDS } from './field-words.js';
import { lastMended } from './mended-here.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useUntold } from './use-field.js';

/** All that can be entered beside the next step, one touch away. */
export function ElseMenu({ kept, home, visit }: FieldTicketProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const isMended = lastMended(kept.value.kit, useUntold(kept)) !== undefined;
  const { menu } = FIELD_WORDS;
  const links: [to: string, words: string][] = [
    [`${home}/room`, menu.room],
    [`${home}/part`, menu.part],
    [`${home}/reading`, menu.reading],
    [`${home}/room?off=1`, menu.off],
    [`${home}/cables`, menu.cables],
    [`${home}/found`, menu.found],
    [`${home}/walk-test`, menu.walkTest],
    [`${home}/note`, menu.note],
    [`${home}/photo`, menu.photo],
  ];
  if (isMended) links.push([`${home}/take-back`, menu.takeBack]);
  if (visit !== undefined) {
    links.push([`/field/visits/${visit.id}/sheet`, FIELD_WORDS.jobSheet]);
    links.push([`/field/visits/${visit.id}`, menu.end]);
  }
  return (
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.somethingElse}
      </h1>
      <ul class="menu">
        {links.map(([to, words]) => (
          <li key={to}>
            <a class="button wide" href={to}>
              {words}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
