import { useState } from 'preact/hooks';
import { Failure } from './failure.js';

export interface Sending {
  isSending: boolean;
  failure: Failure | undefined;
  /** Does the work unless it is being done already; a failure is kept to be shown. */
  send: (work: () => Promise<void>) => void;
}

export function useSending(): Sending {
  const [isSending, setSending] = useState(false);
  const [failure, setFailure] = useState<Failure>();
  const doIt = async (work: () => Promise<void>) => {
    setSending(true);
    setFailure(undefined);
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      setFailure(error);
    } finally {
      setSending(false);
    }
  };
  return { isSending, failure, send: (work) => void (isSending || doIt(work)) };
}
