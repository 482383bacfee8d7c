import { useEffect } from 'preact/hooks';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadWorkTimes } from '../../parts/wire.js';
import { WorkTimesForm } from './work-times-form.js';
import { paceInWords, saidInWords } from './work-times-sentences.js';
import { WORK_TIMES_WORDS } from '../words/words.js';

/** How long work on site takes at this firm: learned, usual, or as an owner says. */
export function WorkTimesPage() {
  const service = useService();
  const isOwner = service.session.person.role === 'owner';
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const read = useRead('work times', () => service.read<ReadWorkTimes>('/work-times'));
  useEffect(() => {
    document.title = WORK_TIMES_WORDS.title;
  }, []);
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {WORK_TIMES_WORDS.title}
      </h1>
      <p>{WORK_TIMES_WORDS.hint}</p>
      <Loaded read={read}>
        {(times) => (
          <>
            <p class="first-place">{paceInWords(times)}</p>
            <p class="hint">{WORK_TIMES_WORDS.paceHint}</p>
            {isOwner ? <WorkTimesForm times={times} /> : <WorkTimesList times={times} />}
          </>
        )}
      </Loaded>
    </article>
  );
}

function WorkTimesList({ times }: { times: ReadWorkTimes }) {
  const { names, notOwner } = WORK_TIMES_WORDS;
  return (
    <>
      <ul>
        {times.items.map((item) => (
          <li key={item.name}>
            {names[item.name]}: {saidInWords(item, times.paceVisits)}
          </li>
        ))}
      </ul>
      <p class="hint">{notOwner}</p>
    </>
  );
}
