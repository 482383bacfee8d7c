import { useEffect } from 'preact/hooks';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadVan } from '../../parts/wire.js';
import { CorrectionEnd, useCorrection } from '../correction.js';
import { useDraft } from '../use-draft.js';
import { carriedParts, poseVan, type VanDraft, vanDraft } from './planning-draft.js';
import { PLANNING_WORDS } from '../words/words.js';

/** What a technician's van carries. */
export function VanPage({ id = '' }: { id?: string }) {
  const service = useService();
  const path = `/people/${encodeURIComponent(id)}/van`;
  const read = useRead(path, () => service.read<ReadVan>(path));
  return <Loaded read={read}>{(van) => <VanView key={id} van={van} path={path} />}</Loaded>;
}

interface VanProps {
  van: ReadVan;
  path: string;
}

function VanView({ van, path }: VanProps) {
  const { role } = useService().session.person;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { title, van: words } = PLANNING_WORDS;
  const name = words.title(van.name);
  useEffect(() => {
    document.title = name;
  }, [name]);
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {name}
      </h1>
      <p>
        <a href="/desk/planning">{title}</a>
      </p>
      <p>{words.hint}</p>
      {role === 'contract-manager' ? (
        <ul>
          {van.parts.map((part) => (
            <li key={part.name}>
              {part.name}: {part.quantity}
            </li>
          ))}
        </ul>
      ) : (
        <VanForm van={van} path={path} />
      )}
    </article>
  );
}

function VanForm({ van, path }: VanProps) {
  const service = useService();
  const { van: words } = PLANNING_WORDS;
  const correction = useCorrection<VanDraft, ReadVan>({
    method: 'PUT',
    path,
    source: van,
    draftOf: vanDraft,
    pose: (draft) => poseVan(draft, words.whole),
    readAgain: () => service.read<ReadVan>(path),
  });
  const { typed, failed, save } = correction;
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const give = (name: string, quantity: string | undefined) =>
    typed.give({ parts: { ...typed.draft.parts, [name]: quantity } });
  return (
    <form onSubmit={save} noValidate ref={form}>
      {typed.source.version === 0 && <p class="notice">{words.nothing}</p>}
      {carriedParts(typed.draft).map(({ name, quantity }, index) => (
        <div class="part-price" key={name}>
          <TextField
            label={name}
            autocomplete="off"
            value={quantity}
            onValue={(value) => give(name, value)}
            error={failed?.sentenceFor(`/parts/${index}`)}
          />
          <button type="button" class="small" onClick={() => give(name, undefined)}>
            {PLANNING_WORDS.remove}
            <span class="unseen"> {name}</span>
          </button>
        </div>
      ))}
      <AddPart path={path} onName={(name) => give(name, typed.draft.parts[name] ?? '1')} />
      <CorrectionEnd correction={correction} shown={['/parts']} nameOf={() => words.parts} />
    </form>
  );
}

function AddPart({ path, onName }: { path: string; onName: (name: string) => void }) {
  const { van: words } = PLANNING_WORDS;
  const { draft, give, settle } = useDraft(`a part of ${path}`, { name: '' });
  const name = draft.name.trim();
  const add = () => {
    if (name === '') return;
    onName(name);
    settle();
  };
  return (
    <div class="add-line">
      <TextField
        label={words.another}
        hint={words.anotherHint}
        autocomplete="off"
        maxLength={200}
        value={draft.name}
        onValue={(typedName) => give({ name: typedName })}
      />
      <button type="button" class="small" aria-disabled={name === ''} onClick={add}>
        {words.add}
      </button>
    </div>
  );
}
