import { readdirSync, readFileSync } from 'node:fs';

import { describe, expect, it } from '@jest/globals';

const SRC = new URL('../src/', import.meta.url);
const DECLARED =
  /^export (?:declare )?(?:abstract )?(?:async )?(?:class|function\*?|const|interface|type|enum) (\w+)/gm;

/** Names that are exported, each with the files that do. */
function exportsByName(): Map<string, string[]> {
  const found = new Map<string, string[]>();
  const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' });
  for (const file of files.filter((each) => /(?<!\.spec|\.d)\.tsx?$/.test(each)).sort())
    for (const [, name = ''] of readFileSync(new URL(file, SRC), 'utf8').matchAll(DECLARED))
      found.set(name, [...new Set([...(found.get(name) ?? []), file])]);
  return found;
}

describe('names', () => {
  it('mean one thing: no two files export the same', () => {
    const all = exportsByName();
    expect(all.size).toBeGreaterThan(1000);
    expect(Object.fromEntries([...all].filter(([, files]) => files.length > 1))).toEqual({});
  });
});
