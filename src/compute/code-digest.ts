import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** What tells these folders of the program from those of another version: what was kept by that is worked out again. */
export function codeDigest(folders: readonly URL[]): string {
  const hash = createHash('sha256');
  for (const folder of folders) {
    const path = fileURLToPath(folder);
    const names = readdirSync(path, { recursive: true, encoding: 'utf8' });
    for (const name of names.filter((one) => one.endsWith('.js')).sort())
      hash.update(name).update(readFileSync(join(path, name)));
  }
  return hash.digest('base64url');
}
