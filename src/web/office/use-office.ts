import { useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import type { Kept } from '../parts/kept.js';
import type { Sitting } from './sitting.js';
import type { PassAnswer, PassReport, PassSite, Signing } from '../parts/wire.js';

/** Who is at the page, and how it asks the service on their behalf. */
export interface Office {
  name: string;
  onName: (name: string) => void;
  kept: Kept;
  read: <Answer>(path: string) => Promise<Answer>;
  /** Sends under an id that makes sending again safe. */
  send: <Answer>(path: string, content: PassReport | PassAnswer | Signing) => Promise<Answer>;
  /** Reads the site anew, after something has changed. */
  refresh: () => Promise<void>;
}

const OWN_NAME = 'own name';

/** `onOver` is told when the pass was ended or the sitting is over, besides the failure itself. */
export function useOffice(
  sitting: Sitting,
  onSite: (site: PassSite) => void,
  onOver: (failure: Failure) => void,
): Office {
  const { kept } = sitting;
  const [name, setName] = useState(kept.read<string>(OWN_NAME) ?? '');
  const orOver = async <Answer>(work: Promise<Answer>): Promise<Answer> => {
    try {
      return await work;
    } catch (error) {
      if (error instanceof Failure && [401, 410].includes(error.status)) onOver(error);
      throw error;
    }
  };
  return {
    name,
    onName: (typed) => {
      kept.write(OWN_NAME, typed);
      setName(typed);
    },
    kept,
    read: (path) => orOver(sitting.read(path)),
    send: (path, content) => orOver(sitting.send(path, content)),
    refresh: async () => onSite(await orOver(sitting.read<PassSite>('/site'))),
  };
}
