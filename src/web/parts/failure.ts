import { PAGE_LANGUAGE, PAGE_WORDS } from './language.js';

/** One thing wrong with what was sent, by JSON pointer into it. */
interface FieldComplaint {
  field: string;
  /** In the page’s language, as far as the service has words for it. */
  reason: string;
  /** Of a sheet. */
  line?: number;
  column?: string;
  value?: string;
}

/** What a problem document says for programs. */
interface Problem {
  type?: string;
  firmIds?: readonly string[];
  mergedInto?: string;
  confirm?: readonly string[];
  from?: string;
  to?: string;
}

const NOT_NOW: readonly number[] = [0, 408, 425, 429];

/** What came of asking the service when it was no answer. Status 0: it was not reached. */
export class Failure extends Error {
  constructor(
    readonly status: number,
    message: string,
    readonly errors: readonly FieldComplaint[] = [],
    private readonly problem: Problem = {},
  ) {
    super(message);
  }

  /** Whether it is of that kind, as the service names kinds. */
  isA(kind: string): boolean {
    return this.problem.type?.endsWith(`:${kind}`) ?? false;
  }

  /** The firms among which to choose, where an e-mail signs in to several. */
  get firmIds(): readonly string[] {
    return this.problem.firmIds ?? [];
  }

  /** The ticket that has the reports now of the one that was asked for. */
  get mergedInto(): string | null {
    return this.problem.mergedInto ?? null;
  }

  /** What the service takes all the same once it is told in `confirmed` that it is meant so. */
  get confirm(): readonly string[] {
    return this.problem.confirm ?? [];
  }

  /** It is to become what it is already: somebody else was quicker, or the same person elsewhere. */
  get isAlreadySo(): boolean {
    return this.isA('move-not-allowed') && this.problem.from === this.problem.to;
  }

  /** Not reached, or not now: the same may go through later. */
  get isForLater(): boolean {
    return NOT_NOW.includes(this.status) || this.status >= 500;
  }

  /** Why the field will not do, or undefined; a pointer into the field counts as the field. */
  reasonFor(field: string): string | undefined {
    return this.errors.find((one) => one.field === field || one.field.startsWith(`${field}/`))
      ?.reason;
  }

  /** The same as sentences of its own, each thing wrong with it: the service's reasons go on from the field's name. */
  sentenceFor(field: string): string | undefined {
    const own = this.errors.filter((one) => one.field === field).map(({ reason }) => reason);
    const reasons = own.length > 0 ? own : [this.reasonFor(field) ?? ''];
    return [...new Set(reasons.filter(Boolean).map(asSentence))].join(' ') || undefined;
  }

  /** All that it says for people, without the names that fields have on the wire. */
  get inFull(): string {
    const reasons = new Set(this.errors.map(({ reason }) => asSentence(reason)));
    return [this.message, ...[...reasons].filter((one) => !this.message.includes(one))].join(' ');
  }

  /** What it says for people beside what is wrong at these fields, which show it themselves; undefined: nothing. */
  besides(fields: readonly string[]): string | undefined {
    const isShown = ({ field }: FieldComplaint) =>
      fields.some((own) => field === own || field.startsWith(`${own}/`));
    const others = this.errors.filter((one) => !isShown(one));
    if (others.length === this.errors.length) return this.inFull;
    return [...new Set(others.map(({ reason }) => asSentence(reason)))].join(' ') || undefined;
  }
}

const STOP = PAGE_LANGUAGE === 'hi' ? '।' : '.';

function asSentence(reason: string): string {
  const sentence = `${reason.charAt(0).toUpperCase()}${reason.slice(1)}`;
  return /[.।]$/.test(sentence) ? sentence : `${sentence}${STOP}`;
}

/** Where what the service says is for programs rather than for people. */
const OWN_WORDS: Readonly<Record<number, string>> = {
  404: PAGE_WORDS.closedMeanwhile,
  500: PAGE_WORDS.notReady,
  502: PAGE_WORDS.notReady,
  503: PAGE_WORDS.notReady,
};

/** What is for people: in English, and in the page’s language where that is another one. */
interface Said {
  detail?: string;
  words?: string;
}

/** Makes a failure of a problem document (RFC 9457), or of whatever else came instead. */
export function toFailure(status: number, body: unknown): Failure {
  const problem = (body ?? {}) as Problem & Said & { errors?: (FieldComplaint & Said)[] };
  const { detail, words = detail, errors } = problem;
  const said = typeof words === 'string' ? words : PAGE_WORDS.wentWrong;
  const complaints = (Array.isArray(errors) ? errors : []).map((one) => {
    return { ...one, reason: one.words ?? one.reason };
  });
  const own = problem.type?.endsWith(':move-not-allowed')
    ? PAGE_WORDS.movedMeanwhile
    : OWN_WORDS[status];
  return new Failure(status, own ?? said, complaints, problem);
}
