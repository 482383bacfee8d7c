import { PAGE_WORDS } from './language.js';

/** One thing wrong with what was sent, by JSON pointer into it. */
interface FieldComplaint {
  field: string;
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

  /** Not reached, or not now: the same may go through later. */
  get isForLater(): boolean {
    return NOT_NOW.includes(this.status) || this.status >= 500;
  }

  /** Why the field will not do, or undefined; a pointer into the field counts as the field. */
  reasonFor(field: string): string | undefined {
    return this.errors.find((one) => one.field === field || one.field.startsWith(`${field}/`))
      ?.reason;
  }

  /** The same as a sentence of its own: the service's reasons go on from the field's name. */
  sentenceFor(field: string): string | undefined {
    const reason = this.reasonFor(field);
    return reason === undefined ? undefined : asSentence(reason);
  }

  /** All that it says for people, without the names that fields have on the wire. */
  get inFull(): string {
    const reasons = new Set(this.errors.map(({ reason }) => asSentence(reason)));
    return [this.message, ...reasons].join(' ');
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

function asSentence(reason: string): string {
  const sentence = `${reason.charAt(0).toUpperCase()}${reason.slice(1)}`;
  return sentence.endsWith('.') ? sentence : `${sentence}.`;
}

/** Where what the service says is for programs rather than for people. */
const OWN_WORDS: Readonly<Record<number, string>> = {
  404: PAGE_WORDS.closedMeanwhile,
  500: PAGE_WORDS.notReady,
  502: PAGE_WORDS.notReady,
  503: PAGE_WORDS.notReady,
};

/** Makes a failure of a problem document (RFC 9457), or of whatever else came instead. */
export function toFailure(status: number, body: unknown): Failure {
  const problem = (body ?? {}) as Problem & { detail?: unknown; errors?: FieldComplaint[] };
  const { detail, errors } = problem;
  const said = typeof detail === 'string' ? detail : PAGE_WORDS.wentWrong;
  const complaints = Array.isArray(errors) ? errors : [];
  return new Failure(status, OWN_WORDS[status] ?? said, complaints, problem);
}
