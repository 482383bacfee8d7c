import type { ComponentChildren } from 'preact';
import type { Failure } from './failure.js';
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
    if (failure === undefined) return <p role="status">One moment…</p>;
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
        {isGone ? 'There is nothing here' : 'This did not work just now'}
      </h1>
      <p>
        {isGone ? 'The address may be mistyped, or what it was about is gone.' : failure.message}
      </p>
      <button type="button" class="main" onClick={onAgain}>
        Try again
      </button>
    </section>
  );
}

/** What is shown may be old. */
function NotFresh({ failure, onAgain }: { failure: Failure; onAgain: () => void }) {
  return (
    <div class="notice" role="alert">
      <p>
        This may be out of date: {failure.message}{' '}
        <button type="button" class="small" onClick={onAgain}>
          Try again
        </button>
      </p>
    </div>
  );
}
