// Lets `npm run demo` and `npm test` work on a bare clone: installs when the lock file is newer
// than what is installed. npm writes node_modules/.package-lock.json at the end of each install.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Lastheard needs Node.js 20.19 or newer; this is ${process.version}.`);
  process.exit(1);
}

const installed = 'node_modules/.package-lock.json';
const isCurrent =
  existsSync(installed) && statSync(installed).mtimeMs >= statSync('package-lock.json').mtimeMs;

if (!isCurrent) {
  console.log('Installing packages (once)…');
  const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (status !== 0) process.exit(status ?? 1);
}
