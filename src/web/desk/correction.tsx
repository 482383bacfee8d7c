import { useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { PAGE_FORMATS } from '../parts/language.js';
import { useService } from '../parts/service-context.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import { useTyped } from './use-typed.js';
import { CORRECTION_WORDS } from './words/words.js';

/** What is corrected, and how it is read and sent. */
interface Corrected<Draft, Source> {
  method: 'PATCH' | 'PUT';
  path: string;
  source: Source;
  draftOf: (source: Source) => Draft;
  /** As it is sent, and what is wrong before anybody is asked, by JSON pointer; `base` is what was typed upon. */
  pose: (
    draft: Draft,
    base: Draft,
  ) => { body: object; errors: { field: string; reason: string }[] };
  /** As somebody else left it. */
  readAgain: () => Promise<Source>;
}

/** A form for what the firm keeps in one version: what is typed outlives a reload, and somebody else's saving. */
export function useCorrection<Draft extends object, Source extends { version: number }>({
  method,
  path,
  source,
  draftOf,
  pose,
  readAgain,
}: Corrected<Draft, Source>) {
  const service = useService();
  const typed = useTyped(path, source, draftOf(source));
  const [lacking, setLacking] = useState<Failure>();
  const [isSaved, setSaved] = useState(false);
  const { isSending, failure, send } = useSending();
  const save = (event: Event) => {
    event.preventDefault();
    setSaved(false);
    const { body, errors } = pose(typed.draft, typed.base);
    const [first] = errors;
    setLacking(first === undefined ? undefined : new Failure(422, first.reason, errors));
    if (first !== undefined) return;
    send(async () => {
      try {
        const sent = { body, ifMatch: typed.source.version };
        const saved = await service.send<Source>(method, path, sent);
        typed.settle(saved, draftOf(saved));
        setSaved(true);
      } catch (error) {
        if (!(error instanceof Failure) || error.status !== 412) throw error;
        const now = await readAgain();
        typed.meet(now, draftOf(now));
      }
    });
  };
  const drop = () => {
    setLacking(undefined);
    typed.settle(typed.source, typed.base);
  };
  return { typed, failed: lacking ?? failure, isSaved, isSending, save, drop };
}

interface CorrectionEndProps<Draft extends object, Source extends { version: number }> {
  correction: ReturnType<typeof useCorrection<Draft, Source>>;
  /** The fields that show their own reasons, by JSON pointer. */
  shown: readonly string[];
  /** What a field of the draft is called. */
  nameOf: (field: keyof Draft & string) => string;
}

/** How a form ends: what is wrong besides, what two changed at once, and what to do. */
export function CorrectionEnd<Draft extends object, Source extends { version: number }>({
  correction: { typed, failed, isSaved, isSending, drop },
  shown,
  nameOf,
}: CorrectionEndProps<Draft, Source>) {
  const words = CORRECTION_WORDS;
  return (
    <>
      <FailureLine failure={failed} fields={shown} />
      {typed.meanwhile !== undefined && (
        <ChangedMeanwhile key={typed.source.version} both={typed.meanwhile.map(nameOf)} />
      )}
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? words.saving : words.save}
      </button>
      <p role="status">{isSaved && !typed.isTyped && words.saved}</p>
      {typed.isTyped && (
        <button type="button" class="small" onClick={drop}>
          {words.drop}
        </button>
      )}
    </>
  );
}

function ChangedMeanwhile({ both }: { both: readonly string[] }) {
  const notice = useFocusOnAppearing<HTMLDivElement>();
  const { meanwhile, saveAgain, both: inBoth } = CORRECTION_WORDS;
  return (
    <div class="notice" role="alert" tabIndex={-1} ref={notice}>
      <p>{meanwhile}</p>
      {both.length > 0 && <p>{inBoth(PAGE_FORMATS.and(both))}</p>}
      <p>{saveAgain}</p>
    </div>
  );
}
