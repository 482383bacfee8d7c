import { useEffect, useState } from 'preact/hooks';
import { noticeWordsIn } from '#app/words/index.js';
import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';

/** Ends mails by the link that each of them shows: nothing happens before the button is pressed, so that a program that looks through mails ends nothing. */
export function WayOutPage({ link }: { link: string | undefined }) {
  const words = noticeWordsIn(PAGE_LANGUAGE).page;
  const [failure, setFailure] = useState<string>();
  const [state, setState] = useState<'open' | 'sending' | 'ended' | 'over'>(
    link === undefined ? 'over' : 'open',
  );
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  useEffect(() => {
    document.documentElement.lang = PAGE_LANGUAGE;
    document.title = words.heading;
  }, [words]);
  const end = () => {
    setState('sending');
    const query = new URLSearchParams({ key: link ?? '' });
    ask('POST', `/notice-wishes/way-out?${query}`).then(
      () => setState('ended'),
      (error: unknown) => {
        const isOver = error instanceof Failure && error.status === 404;
        setState(isOver ? 'over' : 'open');
        setFailure(error instanceof Error ? error.message : String(error));
      },
    );
  };
  return (
    <section class="card" aria-live="polite">
      <h1 tabIndex={-1} ref={heading}>
        {words.heading}
      </h1>
      {state === 'ended' ? (
        <>
          <p>{words.ended}</p>
          <p>{words.again}</p>
        </>
      ) : state === 'over' ? (
        <p>{words.over}</p>
      ) : (
        <>
          <p>{words.question}</p>
          {failure !== undefined && <p role="alert">{failure}</p>}
          <button type="button" disabled={state === 'sending'} onClick={end}>
            {words.end}
          </button>
        </>
      )}
    </section>
  );
}
