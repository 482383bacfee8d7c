import { FIELD_WORDS } from './field-words.js';
import { useField } from './use-field.js';

interface FoundAtProps {
  siteId?: string;
  trunk?: string;
  node?: string;
}

/** What the code on a unit opens: that room, on each ticket that is open at the site. */
export function FoundAt({ siteId, trunk, node }: FoundAtProps) {
  const { work } = useField();
  if (work === undefined) return <p role="status">{FIELD_WORDS.oneMoment}</p>;
  const open = work.value.tickets.filter(({ site }) => site.id === siteId);
  const at = new URLSearchParams({ at: `${trunk}/${node}` });
  return (
    <section>
      <h1>{node}</h1>
      {open.length === 0 && <p>{FIELD_WORDS.nothingOpenHere}</p>}
      <ul class="jobs">
        {open.map(({ id, number, site }) => (
          <li key={id} class="card">
            <h2>
              {number}, {site.name}
            </h2>
            <ul class="menu">
              {(['room', 'part', 'reading'] as const).map((what) => (
                <li key={what}>
                  <a class="button wide" href={`/field/tickets/${number}/${what}?${at}`}>
                    {FIELD_WORDS.menu[what]}
                  </a>
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  );
}
