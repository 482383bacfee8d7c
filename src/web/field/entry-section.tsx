import type { ComponentChildren } from 'preact';
import { FailureLine } from '../parts/failure-line.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import type { EnteringOf } from './entering.js';

interface EntrySectionProps {
  title: string;
  entering: Pick<EnteringOf, 'failure' | 'refused'>;
  /** Those that show what is wrong with them themselves. */
  fields: readonly string[];
  children: ComponentChildren;
}

/** A form of its own page: what was refused before is shown where it is wrong, and typing goes on there. */
export function EntrySection({ title, entering, fields, children }: EntrySectionProps) {
  const { failure, refused } = entering;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const section = useFocusOnWrong<HTMLElement>(refused);
  return (
    <section ref={section}>
      <h1 tabIndex={-1} ref={heading}>
        {title}
      </h1>
      {children}
      <FailureLine failure={refused} fields={fields} />
      {failure !== undefined && (
        <p class="error" role="alert">
          {failure}
        </p>
      )}
    </section>
  );
}
