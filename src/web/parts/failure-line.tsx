import type { Failure } from './failure.js';

interface FailureLineProps {
  failure: Failure | undefined;
  /** The fields that show their own reasons. */
  fields?: readonly string[];
}

/** What went wrong, unless a field says so already. */
export function FailureLine({ failure, fields = [] }: FailureLineProps) {
  const said = failure?.besides(fields);
  return said === undefined ? null : (
    <p class="error" role="alert">
      {said}
    </p>
  );
}
