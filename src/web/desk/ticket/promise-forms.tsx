import type { ComponentChildren } from 'preact';
import { ChooseField } from '../../parts/choose-field.js';
import { useService } from '../../parts/service-context.js';
import { LongText, TextField } from '../../parts/text-field.js';
import { PAUSED_FOR, TROUBLE_WORDS } from '../contracts/contract-sentences.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { EnterForm } from './enter-form.js';
import type { Lacking } from './reading-draft.js';
import type { TicketViewProps } from './ticket-view.js';
import { saidAt } from './told-by.js';
import { useEntry } from './use-entry.js';
import { CONTRACT_WORDS, EVIDENCE_WORDS, PROMISE_WORDS } from '../words/words.js';

/** A closed ticket's clock stands still too, but nobody says so. */
const REASONS = ['no-access', 'waiting-for-client', 'part-on-order'] as const;

interface PromiseFormProps extends TicketViewProps {
  /** Told what was entered. */
  onEntered: (what: string) => void;
}

type Route = 'pauses' | 'pauses/end' | 'trouble-class' | 'breach-causes';

/** What is typed for one of the ticket's routes, and sending it under the name of whoever is signed in. */
function usePromiseEntry<Draft extends object>(
  { ticket, onChanged, onEntered }: PromiseFormProps,
  route: Route,
  empty: Draft,
) {
  const { name, role } = useService().session.person;
  const { draft, give, settle } = useDraft(`${route} of ${ticket.id}`, empty);
  const { isSending, failure, enter } = useEntry();
  const saidBy = { name, kind: role === 'technician' ? 'technician' : 'office' };
  return {
    draft,
    give,
    sending: { isSending, failure },
    wrong: (field: string) => failure?.sentenceFor(field),
    say: (what: string, body: object, errors: readonly Lacking[] = []) =>
      enter(
        `/tickets/${ticket.id}/${route}`,
        errors.length > 0 ? { errors } : { body: { saidBy, ...body } },
        () => {
          settle();
          onEntered(what);
          onChanged();
        },
      ),
  };
}

/** What is not filled in, with what is said of it. */
function lackingOf(filled: Readonly<Record<string, string>>, reason: (field: string) => string) {
  return Object.entries(filled)
    .filter(([, value]) => value.trim() === '')
    .map(([name]) => ({ field: `/${name}`, reason: reason(name) }));
}

interface FoldedProps {
  summary: string;
  ticketId: string;
  route: Route;
  children: ComponentChildren;
}

/** Open where something was begun of it. */
function Folded({ summary, ticketId, route, children }: FoldedProps) {
  const isBegun = useIsBegun(`${route} of ${ticketId}`);
  return (
    <details open={isBegun}>
      <summary>{summary}</summary>
      {children}
    </details>
  );
}

interface WhenFieldProps {
  value: string;
  onValue: (at: string) => void;
  zone: string;
  error: string | undefined;
}

function WhenField({ zone, ...rest }: WhenFieldProps) {
  return (
    <TextField
      label={EVIDENCE_WORDS.when}
      hint={EVIDENCE_WORDS.whenClock(zone)}
      type="datetime-local"
      autocomplete="off"
      {...rest}
    />
  );
}

export function PauseForm(props: PromiseFormProps) {
  const { ticket, site } = props;
  const empty = { reason: '', evidence: '', at: '' };
  const { draft, give, sending, wrong, say } = usePromiseEntry(props, 'pauses', empty);
  const { reason, evidence, at } = draft;
  const { pause, noReason, noEvidence } = PROMISE_WORDS;
  const body = { reason, evidence: evidence.trim(), saidAt: saidAt(draft, site.zone) };
  const lacking = lackingOf({ reason, evidence }, (field) =>
    field === 'reason' ? noReason : noEvidence,
  );
  return (
    <Folded summary={pause} ticketId={ticket.id} route="pauses">
      <EnterForm
        {...sending}
        fields={['/reason', '/evidence', '/saidAt']}
        button={pause}
        onSubmit={() => say(pause, body, lacking)}
      >
        <ChooseField
          label={PROMISE_WORDS.pauseWhy}
          value={reason}
          choices={[
            { value: '', words: EVIDENCE_WORDS.choose },
            ...REASONS.map((value) => ({ value, words: PAUSED_FOR[value] })),
          ]}
          onValue={(chosen) => give({ reason: chosen })}
          error={wrong('/reason')}
        />
        <LongText
          label={PROMISE_WORDS.evidence}
          value={evidence}
          onValue={(text) => give({ evidence: text })}
          error={wrong('/evidence')}
        />
        <WhenField
          value={at}
          onValue={(wall) => give({ at: wall })}
          zone={site.zone}
          error={wrong('/saidAt')}
        />
      </EnterForm>
    </Folded>
  );
}

export function ResumeForm(props: PromiseFormProps) {
  const { ticket, site } = props;
  const { draft, give, sending, wrong, say } = usePromiseEntry(props, 'pauses/end', { at: '' });
  const { resume } = PROMISE_WORDS;
  return (
    <Folded summary={resume} ticketId={ticket.id} route="pauses/end">
      <EnterForm
        {...sending}
        fields={['/saidAt']}
        button={resume}
        onSubmit={() => say(resume, { saidAt: saidAt(draft, site.zone) })}
      >
        <WhenField
          value={draft.at}
          onValue={(wall) => give({ at: wall })}
          zone={site.zone}
          error={wrong('/saidAt')}
        />
      </EnterForm>
    </Folded>
  );
}

/** As nobody says it, in a list of what can be said. */
const COMPUTED = '';

export function ClassForm(props: PromiseFormProps) {
  const { ticket, clock } = props;
  const stands = clock.overrideReason === null ? COMPUTED : clock.troubleClass;
  // Undefined: what stands, whoever changes that meanwhile.
  const empty: { troubleClass?: keyof typeof TROUBLE_WORDS | typeof COMPUTED; reason: string } = {
    reason: '',
  };
  const { draft, give, sending, wrong, say } = usePromiseEntry(props, 'trouble-class', empty);
  const { troubleClass = stands, reason } = draft;
  const { classify } = PROMISE_WORDS;
  const body = { troubleClass: troubleClass || null, reason: reason.trim() };
  const lacking = lackingOf({ reason }, () => PROMISE_WORDS.noWhy);
  return (
    <Folded summary={classify} ticketId={ticket.id} route="trouble-class">
      <EnterForm
        {...sending}
        fields={['/troubleClass', '/reason']}
        onSubmit={() => say(classify, body, lacking)}
      >
        <ChooseField
          label={CONTRACT_WORDS.trouble}
          value={troubleClass}
          choices={[
            {
              value: COMPUTED,
              words: PROMISE_WORDS.asComputed(TROUBLE_WORDS[clock.computedClass]),
            },
            ...Object.entries(TROUBLE_WORDS).map(([value, words]) => ({ value, words })),
          ]}
          onValue={(value) => give({ troubleClass: value as typeof troubleClass })}
          error={wrong('/troubleClass')}
        />
        <LongText
          label={EVIDENCE_WORDS.why}
          value={reason}
          onValue={(text) => give({ reason: text })}
          error={wrong('/reason')}
        />
      </EnterForm>
    </Folded>
  );
}

export function CauseForm(props: PromiseFormProps) {
  const { ticket, clock } = props;
  const broken = clock.promises.filter(({ state }) => state === 'breached');
  const empty = { promise: '', cause: '' };
  const { draft, give, sending, wrong, say } = usePromiseEntry(props, 'breach-causes', empty);
  const { cause } = draft;
  const chosen = broken.find(({ promise }) => promise === draft.promise) ?? broken[0];
  const { tellCause } = PROMISE_WORDS;
  const body = { promise: chosen?.promise, cause: cause.trim() };
  const lacking = lackingOf({ cause }, () => PROMISE_WORDS.noWhy);
  return (
    <Folded summary={tellCause} ticketId={ticket.id} route="breach-causes">
      <EnterForm
        {...sending}
        fields={['/promise', '/cause']}
        onSubmit={() => say(tellCause, body, lacking)}
      >
        <ChooseField
          label={PROMISE_WORDS.which}
          value={chosen?.promise ?? ''}
          choices={broken.map(({ promise }) => {
            return { value: promise, words: CONTRACT_WORDS.promises[promise] };
          })}
          onValue={(promise) => give({ promise })}
          error={wrong('/promise')}
        />
        <LongText
          label={EVIDENCE_WORDS.why}
          value={cause}
          onValue={(text) => give({ cause: text })}
          error={wrong('/cause')}
        />
      </EnterForm>
    </Folded>
  );
}
