import { useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import { Failure } from '../../parts/failure.js';
import { keepIn } from '../../parts/kept.js';
import { forgetId, repeatId } from '../../parts/repeat-id.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import type { Lacking } from './reading-draft.js';

const kept = keepIn(() => sessionStorage);

/** What is to be sent, or all that is missing of it. */
export type Made = { body: object } | { errors: readonly Lacking[] };

export interface EntryBeingSent {
  isSending: boolean;
  /** What was missing, or what the service said. */
  failure: Failure | undefined;
  enter: (path: string, made: Made, then: () => void) => void;
}

/** Sends what was entered once, whatever became of the answer; what is missing is said before. */
export function useEntry(): EntryBeingSent {
  const service = useService();
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  return {
    isSending,
    failure: lacking ?? failure,
    enter: (path, made, then) => {
      const isLacking = 'errors' in made;
      setLacking(isLacking ? new Failure(422, '', made.errors) : undefined);
      if (isLacking) return;
      send(async () => {
        const body = { id: repeatId(kept, path, made.body, uuidv7), ...made.body };
        await service.send('POST', path, { body });
        forgetId(kept, path);
        then();
      });
    },
  };
}
