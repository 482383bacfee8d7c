import type { ComponentChildren } from 'preact';
import type { Failure } from './failure.js';
import { PAGE_WORDS } from './language.js';
import type { Read } from './use-read.js';
import { useFocusOnAppearing } from './use-focus.js';

interface LoadedProps<Value> {
  read: Read<Value>;
  children: (value: Value) => ComponentChildren;
}

/** What was read; else that it is being read, or why it could not be. */
export function Loaded<Value>({ read, children }: LoadedProps<Value>) {
  const { value, failure, again } = read;
  if (value === undefined) {
    if (failure === undefined) return <p role="status">{PAGE_WORDS.oneMoment}</p>;
    return <NotRead failure={failure} onAgain={again} />;
  }
  return (
    <>
      {failure !== undefined && <NotFresh failure={failure} onAgain={again} />}
      {children(value)}
    </>
  );
}

function NotRead({ failure, onAgain }: { failure: Failure; onAgain: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const isGone = failure.status === 404;
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {isGone ? PAGE_WORDS.nothingHere : PAGE_WORDS.failedNow}
      </h1>
      <p>{isGone ? PAGE_WORDS.nothingHereWhy : failure.message}</p>
      <button type="button" class="main" onClick={onAgain}>
        {PAGE_WORDS.tryAgain}
      </button>
    </section>
  );
}

/** What is shown may be old. */
function NotFresh({ failure, onAgain }: { failure: Failure; onAgain: () => void }) {
  return (
    <div class="notice" role="alert">
      <p>
        {PAGE_WORDS.maybeOld(failure.message)}{' '}
        <button type="button" class="small" onClick={onAgain}>
          {PAGE_WORDS.tryAgain}
        </button>
      </p>
    </div>
  );
}
