import type { NoticeFacts } from '../notices/notice-kinds.js';
import type { Language } from './languages.js';

/** Mails about what happened. */
export interface NoticeWords {
  language: Language;
  mail: (facts: NoticeFacts) => { subject: string; text: string };
  /** The last lines of each mail: why it came, and how to have no more of them. */
  wayOut: (link: string) => string;
  /** The page that the link opens. */
  page: {
    heading: string;
    question: string;
    end: string;
    ended: string;
    again: string;
    over: string;
  };
}
