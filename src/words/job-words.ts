import type { Outcome } from '../plan/error-rates.js';
import type { Language } from './languages.js';

export interface JobPartFacts {
  id: string;
  neededChance: number;
  isCarried: boolean;
  /** Null: nobody said what the van carries. */
  isInVan: boolean | null;
}

/** What a job sheet says beside the answer and the plan, which have words of their own. */
export interface JobWords {
  language: Language;
  title: (site: string, on: string) => string;
  page: (page: number, pages: number, madeAt: string) => string;
  when: (from: string | null, until: string | null, technician: string | null) => string;
  headings: Readonly<
    Record<'safety' | 'said' | 'plan' | 'checks' | 'parts' | 'lastVisits', string>
  >;
  ticket: (number: number) => string;
  /** Of what was said so much is not listed. */
  furtherSaid: (count: number) => string;
  noPlace: string;
  trunk: (trunk: string) => string;
  headEnd: string;
  /** A piece of a trunk whose beginning stands above. */
  goesOn: (node: string | null) => string;
  /** So many nodes are not drawn. */
  notDrawn: (nodes: number) => string;
  node: (name: string, code: string, outcome: Outcome | null, isLooked: boolean) => string;
  metres: (metres: number) => string;
  part: (part: JobPartFacts) => string;
  secondTrip: (chance: number) => string;
  further: (numbers: readonly number[]) => string;
  none: string;
}
