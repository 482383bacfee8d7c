/** What the page remembers in this tab, over a reload; where the browser keeps nothing, until then. */
export interface Kept {
  read<Value>(name: string): Value | undefined;
  /** Undefined forgets it. */
  write(name: string, value: unknown): void;
}

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** `findStore` may throw, as a browser that forbids storage does. */
export function keepIn(findStore: () => Store): Kept {
  const here = new Map<string, string>();
  const store = openStore(findStore) ?? {
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
      if (value === undefined) store.removeItem(`lastheard ${name}`);
      else store.setItem(`lastheard ${name}`, JSON.stringify(value));
    },
  };
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
