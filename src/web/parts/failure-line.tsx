import type { Failure } from './failure.js';

interface FailureLineProps {
  failure: Failure | undefined;
  /** The fields that show their own reasons. */
  fields?: readonly string[];
}

/** What went wrong, unless a field says so already. */
export function FailureLine({ failure, fields = [] }: FailureLineProps) {
  return failure === undefined || failure.concerns(fields) ? null : (
    <p class="error" role="alert">
      {failure.message}
    </p>
  );
}
