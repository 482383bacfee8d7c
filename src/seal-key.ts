import { randomBytes } from 'node:crypto';
import { link, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

const KEY_BYTES = 32;
const FILE_NAME = 'seal-key';

/** The key that seals secrets in the database: the setting, or a file made at the first start. */
export async function readSealKey(
  setting: string | undefined,
  dataDirectory: string,
): Promise<Buffer> {
  if (setting !== undefined) return toKey('SEAL_KEY', setting);
  const path = join(dataDirectory, FILE_NAME);
  const text = await readFile(path, 'utf8').catch(async (error: NodeJS.ErrnoException) => {
    if (error.code !== 'ENOENT') throw error;
    await makeKeyFile(dataDirectory, path);
    return readFile(path, 'utf8');
  });
  return toKey(path, text.trim());
}

/** Whole or not at all: of two processes that start at once, both get the key of the first. */
async function makeKeyFile(dataDirectory: string, path: string): Promise<void> {
  await mkdir(dataDirectory, { recursive: true });
  const draft = `${path}.${randomBytes(8).toString('hex')}`;
  const key = `${randomBytes(KEY_BYTES).toString('base64')}\n`;
  await writeFile(draft, key, { mode: 0o600, flag: 'wx' });
  try {
    await link(draft, path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  } finally {
    await rm(draft, { force: true });
  }
}

function toKey(name: string, text: string): Buffer {
  const key = Buffer.from(text, 'base64');
  if (key.length !== KEY_BYTES || key.toString('base64') !== text) {
    throw new Error(`${name} must be ${KEY_BYTES} bytes in base 64: openssl rand -base64 32`);
  }
  return key;
}
