import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import type { FunctionName } from '#app/locator/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import { TriedField } from '../parts/tried-field.js';
import { useEntering } from './entering.js';
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
  if (work === undefined) return <p role="status">{PAGE_WORDS.oneMoment}</p>;
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
      <ReportHere siteId={siteId ?? ''} trunk={trunk ?? ''} node={node ?? ''} />
    </section>
  );
}

const OUTCOMES = ['works', 'weak', 'fails'] as const;

/** A report from where somebody stands: it needs no ticket. */
function ReportHere({ siteId, trunk, node }: Required<FoundAtProps>) {
  const { person } = useField();
  const { route } = useLocation();
  const { enter, failure } = useEntering({ ticketId: null, visitId: null, siteId, name: node });
  const [name, setName] = useState<FunctionName>('announcement');
  const say = (outcome: (typeof OUTCOMES)[number]) => {
    const saidBy = { name: person.name, kind: 'technician' };
    const observations = [{ trunk, node, function: name, outcome }];
    const { tried, [outcome]: heard } = PAGE_WORDS.functions[name];
    const words = FIELD_WORDS.heardWords(node, tried, heard);
    const body = { saidBy, how: 'gone-through', observations };
    enter([{ path: `/sites/${siteId}/reports`, body, words }], () => route('/field'));
  };
  return (
    <section>
      <h2>{FIELD_WORDS.reportHere}</h2>
      <p class="hint">{FIELD_WORDS.reportHereHint}</p>
      <TriedField legend={FIELD_WORDS.whatTried} value={name} onValue={setName} error={undefined} />
      {failure !== undefined && <p class="error">{failure}</p>}
      <div class="endings">
        {OUTCOMES.map((outcome) => (
          <button key={outcome} type="button" class="ending" onClick={() => say(outcome)}>
            {PAGE_WORDS.functions[name][outcome]}
          </button>
        ))}
      </div>
    </section>
  );
}
