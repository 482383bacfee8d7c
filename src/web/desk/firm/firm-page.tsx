import { useEffect } from 'preact/hooks';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { local } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadAccount, ReadAuditEntry, ReadFirm, Listed, ReadMail } from '../../parts/wire.js';
import { actInWords } from './act-in-words.js';
import { FirmForm } from './firm-form.js';
import { InviteForm } from './invite-form.js';
import {
  AUDIT_WORDS,
  FIRM_WORDS,
  PLANNING_WORDS,
  PRICES_WORDS,
  ROLE_WORDS,
  WORK_TIMES_WORDS,
} from '../words/words.js';

interface FirmRead {
  firm: ReadFirm;
  accounts: ReadAccount[];
  mails: ReadMail[];
  audit: ReadAuditEntry[];
}

/** Who may do what, what was done, what goes out. */
export function FirmPage() {
  const service = useService();
  const isOwner = service.session.person.role === 'owner';
  useEffect(() => {
    document.title = FIRM_WORDS.title;
  }, []);
  const read = useRead('firm', async () => {
    if (!isOwner) return undefined;
    const [firm, accounts, mails, audit] = await Promise.all([
      service.read<ReadFirm>('/firm'),
      service.list<ReadAccount>('/accounts'),
      service.read<Listed<ReadMail>>('/outbox'),
      service.read<Listed<ReadAuditEntry>>('/audit'),
    ]);
    return { firm, accounts: accounts.items, mails: mails.items, audit: audit.items };
  });
  if (!isOwner) return <p>{FIRM_WORDS.notOwner}</p>;
  return (
    <Loaded read={read}>{(all) => all && <FirmView {...all} onChanged={read.again} />}</Loaded>
  );
}

function FirmView({
  firm,
  accounts,
  mails,
  audit,
  onChanged,
}: FirmRead & { onChanged: () => void }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const names = new Map(accounts.map(({ id, name }) => [id, name]));
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {FIRM_WORDS.title}
      </h1>
      <h2>{FIRM_WORDS.known}</h2>
      <FirmForm firm={firm} onChanged={onChanged} />
      <p>
        <a href="/desk/planning">{PLANNING_WORDS.title}</a> {' · '}
        <a href="/desk/prices">{PRICES_WORDS.title}</a> {' · '}
        <a href="/desk/work-times">{WORK_TIMES_WORDS.title}</a> {' · '}
        <a href="/account#notices" target="_self">
          {FIRM_WORDS.notices}
        </a>
      </p>
      <h2>{FIRM_WORDS.people}</h2>
      <Accounts accounts={accounts} onChanged={onChanged} />
      <InviteForm onInvited={onChanged} />
      <h2>{FIRM_WORDS.outbox}</h2>
      <p class="hint">{FIRM_WORDS.outboxHint}</p>
      {mails.length === 0 && <p>{FIRM_WORDS.noMails}</p>}
      {mails.map((mail) => (
        <details key={mail.id} class="narrow">
          <summary>
            {mail.subject}, {mail.recipient}: {mailState(mail)}
          </summary>
          {mail.failure !== null && <p class="error">{mail.failure}</p>}
          <p class="mail">{mail.text ?? FIRM_WORDS.textGone}</p>
        </details>
      ))}
      <WhoDidWhat audit={audit} names={names} />
    </article>
  );
}

interface WhoDidWhatProps {
  audit: ReadAuditEntry[];
  /** Of people with an account, by their ids. */
  names: ReadonlyMap<string, string>;
}

function WhoDidWhat({ audit, names }: WhoDidWhatProps) {
  return (
    <>
      <h2>{FIRM_WORDS.audit}</h2>
      <p class="hint">
        {FIRM_WORDS.auditHint}{' '}
        <a href="/api/v1/audit/sheet" download target="_self">
          {FIRM_WORDS.auditFile}
        </a>
      </p>
      <ol class="log">
        {audit.map((entry) => (
          <li key={entry.id}>
            <time dateTime={entry.happenedAt}>{local(entry.happenedAt)}</time>
            <span>
              {names.get(entry.actorId ?? '') ?? AUDIT_WORDS.actors[entry.actorKind]}:{' '}
              {actInWords(entry.action, AUDIT_WORDS)}
              {entry.outcome === 'refused' && `, ${FIRM_WORDS.refused}`}
            </span>
          </li>
        ))}
      </ol>
    </>
  );
}

function mailState({ sentAt, failure, createdAt, isGivenUp }: ReadMail): string {
  if (sentAt !== null) return FIRM_WORDS.mailSent(local(sentAt));
  if (isGivenUp) return FIRM_WORDS.mailGivenUp(local(createdAt));
  return failure === null
    ? FIRM_WORDS.mailWaits(local(createdAt))
    : FIRM_WORDS.mailRefused(local(createdAt));
}

function Accounts({ accounts, onChanged }: { accounts: ReadAccount[]; onChanged: () => void }) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const end = (id: string) =>
    send(async () => {
      await service.send('POST', `/accounts/${id}/end`);
      onChanged();
    });
  const { name, email, role, lastIn, secondStep } = FIRM_WORDS;
  return (
    <>
      <FailureLine failure={failure} />
      <div class="scrolls" tabIndex={0} role="region" aria-label={FIRM_WORDS.people}>
        <table>
          <thead>
            <tr>
              {[name, email, role, lastIn, secondStep, ''].map((words) => (
                <th key={words} scope="col">
                  {words === '' ? <span class="unseen">{FIRM_WORDS.endAccount}</span> : words}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {accounts.map((one) => (
              <tr key={one.id}>
                <th scope="row">{one.name}</th>
                <td>{one.email}</td>
                <td>{ROLE_WORDS[one.role]}</td>
                <td>{one.lastSignInAt === null ? FIRM_WORDS.never : local(one.lastSignInAt)}</td>
                <td>{one.hasSecondStep ? FIRM_WORDS.yes : FIRM_WORDS.no}</td>
                <td>
                  {one.endedAt !== null ? (
                    FIRM_WORDS.ended
                  ) : (
                    <button
                      type="button"
                      class="small"
                      aria-disabled={isSending}
                      onClick={() => end(one.id)}
                    >
                      {FIRM_WORDS.endAccount}
                      <span class="unseen"> {one.name}</span>
                    </button>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
