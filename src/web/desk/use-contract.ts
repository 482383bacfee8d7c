import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { uuidv7 } from 'uuidv7';
import { Failure } from '../parts/failure.js';
import { keepIn } from '../parts/kept.js';
import { forgetId, repeatId } from '../parts/repeat-id.js';
import { useService } from '../parts/service-context.js';
import { useSending } from '../parts/use-sending.js';
import type { ReadContract } from '../parts/wire.js';
import { type ContractDraft, draftOf, findNotNumbers, poseContract } from './contract-draft.js';
import { meetChanges } from './meet-changes.js';
import { CONTRACT_WORDS } from './words/contract.js';

interface ContractEntering {
  /** The one that is corrected, or that it follows. */
  before: ReadContract | undefined;
  isCorrection: boolean;
  first: ContractDraft;
}

/** What is typed, on what it is based, and what somebody else changed meanwhile. */
interface Typed {
  base: ContractDraft;
  draft: ContractDraft;
  before: ReadContract | undefined;
  meanwhile: readonly (keyof ContractDraft)[] | undefined;
}

const kept = keepIn(() => sessionStorage);

/** What was entered, which outlives a reload and the session, and what came of saving it. */
export function useContract(entering: ContractEntering) {
  const { before, isCorrection } = entering;
  const service = useService();
  const { route } = useLocation();
  const at = before === undefined ? '/contracts' : `/contracts/${before.id}`;
  const path = before !== undefined && !isCorrection ? `${at}/renewal` : at;
  const name = `typed ${service.session.person.id} ${path}`;
  const [typed, setTyped] = useState(() => begin(name, entering));
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const keep = (next: Typed) => {
    kept.write(name, { base: next.base, draft: next.draft });
    setTyped(next);
  };
  const { body, fieldAt } = poseContract(typed.draft, typed.before);
  const correct = async (contract: ReadContract) => {
    try {
      const sent = { body, ifMatch: contract.version };
      return await service.send<ReadContract>('PATCH', path, sent);
    } catch (error) {
      if (!(error instanceof Failure) || error.status !== 412) throw error;
      keep(meet(typed, await service.read<ReadContract>(at)));
      return undefined;
    }
  };
  const make = () => {
    const sent = { id: repeatId(kept, path, body, uuidv7), ...body };
    return service.send<ReadContract>('POST', path, { body: sent });
  };
  const save = (event: Event) => {
    event.preventDefault();
    const reason = CONTRACT_WORDS.form.number;
    const errors = findNotNumbers(body).map((field) => ({ field, reason }));
    setLacking(errors.length === 0 ? undefined : new Failure(422, reason, errors));
    if (errors.length > 0) return;
    send(async () => {
      const corrected = isCorrection ? typed.before : undefined;
      const saved = corrected === undefined ? await make() : await correct(corrected);
      if (saved === undefined) return;
      forgetId(kept, path);
      kept.write(name, undefined);
      route(`/desk/contracts/${saved.id}`);
    });
  };
  const failed = lacking ?? failure;
  return {
    ...typed,
    failed,
    isSending,
    save,
    wrong: (field: string) => failed?.sentenceFor(fieldAt[field] ?? field),
    give: (more: Partial<ContractDraft>) => keep({ ...typed, draft: { ...typed.draft, ...more } }),
    isTyped: JSON.stringify(typed.draft) !== JSON.stringify(typed.base),
    dropTyped: () => {
      kept.write(name, undefined);
      setLacking(undefined);
      setTyped({ ...typed, draft: typed.base, meanwhile: undefined });
    },
  };
}

function begin(name: string, { before, isCorrection, first }: ContractEntering): Typed {
  const earlier = kept.read<Pick<Typed, 'base' | 'draft'>>(name);
  const fresh = { base: first, draft: first, before, meanwhile: undefined };
  if (earlier === undefined) return fresh;
  const { draft, both } = meetChanges(earlier.base, earlier.draft, first);
  const isOther = isCorrection && JSON.stringify(earlier.base) !== JSON.stringify(first);
  return { ...fresh, draft, meanwhile: isOther ? both : undefined };
}

function meet({ base, draft }: Typed, now: ReadContract): Typed {
  const theirs = draftOf(now);
  const met = meetChanges(base, draft, theirs);
  return { base: theirs, draft: met.draft, before: now, meanwhile: met.both };
}
