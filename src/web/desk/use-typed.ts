import { useState } from 'preact/hooks';
import { DRAFT, keepIn } from '../parts/kept.js';
import { useService } from '../parts/service-context.js';
import { meetChanges } from './meet-changes.js';

/** What is typed, on what it is based, and what somebody else changed meanwhile. */
interface Typed<Draft, Source> {
  base: Draft;
  draft: Draft;
  /** What the base was read from. */
  source: Source;
  /** What both changed, where somebody else saved meanwhile; else undefined. */
  meanwhile: readonly (keyof Draft & string)[] | undefined;
}

const kept = keepIn(() => sessionStorage);

/** What is typed on top of what was read; it outlives a reload and the session. */
export function useTyped<Draft extends object, Source>(
  purpose: string,
  source: Source,
  first: Draft,
) {
  const name = `${DRAFT}${useService().session.person.id} ${purpose}`;
  const [typed, setTyped] = useState(() => begin(name, source, first));
  const keep = (next: Typed<Draft, Source>) => {
    kept.write(name, { base: next.base, draft: next.draft });
    setTyped(next);
  };
  return {
    ...typed,
    isTyped: !isSame(typed.draft, typed.base),
    give: (more: Partial<Draft>) => keep({ ...typed, draft: { ...typed.draft, ...more } }),
    /** Somebody else saved this meanwhile. */
    meet: (now: Source, theirs: Draft) => {
      const { draft, both } = meetChanges(typed.base, typed.draft, theirs);
      keep({ base: theirs, draft, source: now, meanwhile: both });
    },
    /** Nothing more is typed: it was saved, or is not wanted. */
    settle: (now: Source, base: Draft) => {
      kept.write(name, undefined);
      setTyped({ base, draft: base, source: now, meanwhile: undefined });
    },
  };
}

function begin<Draft extends object, Source>(
  name: string,
  source: Source,
  first: Draft,
): Typed<Draft, Source> {
  const earlier = kept.read<{ base: Draft; draft: Draft }>(name);
  const fresh = { base: first, draft: first, source, meanwhile: undefined };
  if (earlier === undefined) return fresh;
  const { draft, both } = meetChanges(earlier.base, earlier.draft, first);
  return { ...fresh, draft, meanwhile: isSame(earlier.base, first) ? undefined : both };
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
