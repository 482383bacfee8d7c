import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { uuidv7 } from 'uuidv7';
import { Failure } from '../../parts/failure.js';
import { keepIn } from '../../parts/kept.js';
import { forgetId, repeatId } from '../../parts/repeat-id.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadContract } from '../../parts/wire.js';
import { type ContractDraft, draftOf, findNotNumbers, poseContract } from './contract-draft.js';
import { useTyped } from '../use-typed.js';
import { CONTRACT_WORDS } from '../words/words.js';

interface ContractEntering {
  /** The one that is corrected, or that it follows. */
  before: ReadContract | undefined;
  isCorrection: boolean;
  first: ContractDraft;
}

const kept = keepIn(() => sessionStorage);

/** What was entered, and what came of saving it. */
export function useContract({ before, isCorrection, first }: ContractEntering) {
  const service = useService();
  const { route } = useLocation();
  const at = before === undefined ? '/contracts' : `/contracts/${before.id}`;
  const path = before !== undefined && !isCorrection ? `${at}/renewal` : at;
  const typed = useTyped(path, before, first);
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const { body, fieldAt } = poseContract(typed.draft, typed.source);
  const correct = async (contract: ReadContract) => {
    try {
      const sent = { body, ifMatch: contract.version };
      return await service.send<ReadContract>('PATCH', path, sent);
    } catch (error) {
      if (!(error instanceof Failure) || error.status !== 412) throw error;
      const now = await service.read<ReadContract>(at);
      typed.meet(now, draftOf(now));
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
      const corrected = isCorrection ? typed.source : undefined;
      const saved = corrected === undefined ? await make() : await correct(corrected);
      if (saved === undefined) return;
      forgetId(kept, path);
      typed.settle(typed.source, typed.base);
      route(`/desk/contracts/${saved.id}`);
    });
  };
  const failed = lacking ?? failure;
  return {
    ...typed,
    failed,
    isSending,
    save,
    meanwhile: isCorrection ? typed.meanwhile : undefined,
    wrong: (field: string) => failed?.sentenceFor(fieldAt[field] ?? field),
    dropTyped: () => {
      setLacking(undefined);
      typed.settle(typed.source, typed.base);
    },
  };
}
