import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { Failure } from './failure.js';

export interface Read<Value> {
  /** What was read last; it stays while it is read anew, and when that fails. */
  value: Value | undefined;
  failure: Failure | undefined;
  again: () => void;
}

/** Reads something when the page opens, when `key` is another, and when asked again. */
export function useRead<Value>(key: string, read: () => Promise<Value>): Read<Value> {
  const [shown, setShown] = useState<{ key: string; value?: Value; failure?: Failure }>({ key });
  const reading = useRef(0);
  const latest = useRef(read);
  latest.current = read;
  const again = useCallback(() => {
    const mine = ++reading.current;
    latest.current().then(
      (value) => {
        if (mine === reading.current) setShown({ key, value });
      },
      (error: unknown) => {
        if (!(error instanceof Failure)) throw error;
        if (mine !== reading.current) return;
        setShown((before) => ({
          key,
          ...(before.key === key && before.value !== undefined && { value: before.value }),
          failure: error,
        }));
      },
    );
  }, [key]);
  useEffect(again, [again]);
  const isOfKey = shown.key === key;
  return {
    value: isOfKey ? shown.value : undefined,
    failure: isOfKey ? shown.failure : undefined,
    again,
  };
}
