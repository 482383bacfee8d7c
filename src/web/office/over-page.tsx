import type { Failure } from '../parts/failure.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';

const SCAN_AGAIN =
  'Please scan the code on the poster again, or open its link. A sitting ends when the page is not used for an hour.';

/** Why there is no site to show: the pass was ended, the sitting is over, or the service was not reached. */
export function OverPage({ failure, onAgain }: { failure: Failure; onAgain: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { status, message } = failure;
  const title =
    status === 410
      ? 'This poster was replaced'
      : status === 401
        ? 'Please open the poster’s link'
        : 'This did not work just now';
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {title}
      </h1>
      <p>{status === 401 ? SCAN_AGAIN : message}</p>
      {status !== 401 && status !== 410 && (
        <button type="button" class="main" onClick={onAgain}>
          Try again
        </button>
      )}
    </section>
  );
}
