import { errorCode } from '../database/built-in-error.js';
import { BackupError } from './backup-error.js';

/** Why the file that a command was given cannot be opened; what it is not to blame for stays as it was thrown. */
export function explainFile(path: string, error: unknown): unknown {
  const reasons: Record<string, string> = {
    ENOENT: `there is no such file or folder: ${path}`,
    ENOTDIR: `part of ${path} is a file, where a folder should be`,
    EISDIR: `${path} is a folder; name a file in it`,
    EACCES: `this user may not open ${path}`,
    EPERM: `this user may not open ${path}`,
  };
  const reason = reasons[errorCode(error) ?? ''];
  return reason === undefined ? error : new BackupError(`FILE: ${reason}`, { cause: error });
}
