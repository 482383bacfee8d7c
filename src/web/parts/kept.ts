/** How the names begin of what is typed and not sent yet, which whoever signs out leaves to nobody. */
export const DRAFT = 'draft ';

/** What the page remembers in this tab, over a reload; where the browser keeps nothing, until then. */
export interface Kept {
  read<Value>(name: string): Value | undefined;
  /** Undefined forgets it. */
  write(name: string, value: unknown): void;
  /** Forgets everything whose name begins so. */
  forget(beginning: string): void;
}

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

/** `findStore` may throw, as a browser that forbids storage does. */
export function keepIn(findStore: () => Store): Kept {
  const here = new Map<string, string>();
  const store = openStore(findStore) ?? {
    get length() {
      return here.size;
    },
    key: (at) => [...here.keys()][at] ?? null,
    getItem: (name) => here.get(name) ?? null,
    setItem: (name, text) => void here.set(name, text),
    removeItem: (name) => void here.delete(name),
  };
  return {
    read<Value>(name: string) {
      const text = store.getItem(`lastheard ${name}`);
      return text === null ? undefined : (JSON.parse(text) as Value);
    },
    write(name, value) {
      const own = `lastheard ${name}`;
      // What was kept before is not what is meant now, should this find no room.
      store.removeItem(own);
      if (value !== undefined) writeIfItFits(store, own, JSON.stringify(value));
    },
    forget(beginning) {
      const names = Array.from({ length: store.length }, (_, at) => store.key(at) ?? '');
      for (const name of names)
        if (name.startsWith(`lastheard ${beginning}`)) store.removeItem(name);
    },
  };
}

/** Where the browser has no room for it, the page goes on with what it shows. */
function writeIfItFits(store: Store, name: string, text: string): void {
  try {
    store.setItem(name, text);
  } catch {
    // Full.
  }
}

function openStore(findStore: () => Store): Store | undefined {
  try {
    const store = findStore();
    store.setItem('lastheard', '');
    store.removeItem('lastheard');
    return store;
  } catch {
    return undefined;
  }
}
