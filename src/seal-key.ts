import { randomBytes } from 'node:crypto';
import { link, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { wrongSetting } from './settings-error.js';

const KEY_BYTES = 32;
const FILE_NAME = 'seal-key';

/** The key that seals secrets in the database: the setting, or a file made at the first start. */
export async function readSealKey(
  setting: string | undefined,
  dataDirectory: string,
): Promise<Buffer> {
  const found = await findSealKey(setting, dataDirectory);
  if (found !== undefined) return found;
  const key = randomBytes(KEY_BYTES).toString('base64');
  const path = join(dataDirectory, FILE_NAME);
  await makeKeyFile(dataDirectory, path, key);
  return toSealKey(path, (await readFile(path, 'utf8')).trim());
}

/** The same, but makes none; undefined where there is none. */
export async function findSealKey(
  setting: string | undefined,
  dataDirectory: string,
): Promise<Buffer | undefined> {
  if (setting !== undefined) return toSealKey('SEAL_KEY', setting);
  const path = join(dataDirectory, FILE_NAME);
  const text = await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'ENOENT') throw error;
  });
  return text === undefined ? undefined : toSealKey(path, text.trim());
}

/** Makes a backup's key the installation's; one that has another key already is refused. */
export async function keepSealKey(
  setting: string | undefined,
  dataDirectory: string,
  key: string,
): Promise<void> {
  const path = join(dataDirectory, FILE_NAME);
  toSealKey('The backup’s seal key', key);
  if (setting === undefined) await makeKeyFile(dataDirectory, path, key);
  const kept = await findSealKey(setting, dataDirectory);
  if (kept?.toString('base64') === key) return;
  const other = setting === undefined ? path : 'SEAL_KEY';
  throw new Error(
    `${other} is another key than the backup’s: take it away, the backup brings its own`,
  );
}

/** Whole or not at all: of two processes that start at once, both get the key of the first. */
async function makeKeyFile(dataDirectory: string, path: string, key: string): Promise<void> {
  await mkdir(dataDirectory, { recursive: true });
  const draft = `${path}.${randomBytes(8).toString('hex')}`;
  await writeFile(draft, `${key}\n`, { mode: 0o600, flag: 'wx' });
  try {
    await link(draft, path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  } finally {
    await rm(draft, { force: true });
  }
}

/** @throws SettingsError that names where the text is from */
export function toSealKey(name: string, text: string): Buffer {
  const key = Buffer.from(text, 'base64');
  if (key.length !== KEY_BYTES || key.toString('base64') !== text) {
    throw wrongSetting(name, `must be ${KEY_BYTES} bytes in base 64: openssl rand -base64 32`);
  }
  return key;
}
