import { useEffect } from 'preact/hooks';
import type { Failure } from '../parts/failure.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';

/** Why there is no site to show: the pass was ended, the sitting is over, or the service was not reached. */
export function OverPage({ failure, onAgain }: { failure: Failure; onAgain: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { status, message } = failure;
  const words = OFFICE_WORDS.over;
  const title = status === 410 ? words.replaced : status === 401 ? words.openLink : words.notNow;
  useEffect(() => {
    document.title = title;
  }, [title]);
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {title}
      </h1>
      <p>{status === 401 ? words.scanAgain : message}</p>
      {status !== 401 && status !== 410 && (
        <button type="button" class="main" onClick={onAgain}>
          {PAGE_WORDS.tryAgain}
        </button>
      )}
    </section>
  );
}
