import { appendFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import supertest from 'supertest';

import { MainProcess } from './support/run-main.js';
import { processesIn, processState, serverPid } from './support/server-processes.js';
import { throwAwayDirectory } from './support/throw-away-directory.js';

// It looks into /proc.
const describeOnLinux = process.platform === 'linux' ? describe : describe.skip;

const ASKED_AT_ONCE = 200;

describeOnLinux('the built-in database that dies', () => {
  const directory = throwAwayDirectory(tmpdir());
  let main: MainProcess;
  let address: string;

  beforeAll(async () => {
    main = new MainProcess({ DATA_DIRECTORY: directory });
    address = await main.address();
  });

  afterAll(async () => {
    main.kill('SIGKILL');
    await main.ended();
    for (const pid of processesIn(directory)) process.kill(pid, 'SIGKILL');
    rmSync(directory, { recursive: true, force: true });
  });

  const ready = () => supertest(address).get('/health/ready');

  const complaints = () =>
    main.out.split('\n').filter((line) => /"level":"(error|fatal)"/.test(line));

  /** That the server which was that process was started again. */
  const isThereAgain = (pid: number) =>
    main.out.split(`(process ${pid}) is gone`)[1]?.includes('is there again') === true;

  it('is started again; until then answers are 503, and the log has one line of it', async () => {
    await ready().expect(200);
    const refused: supertest.Response[] = [];
    let pid: number;
    // Where the machine is busy it may be back before anybody asked: then it dies once more.
    do {
      pid = serverPid(directory);
      process.kill(pid, 'SIGKILL');
      let isBack = false;
      while (!isBack) {
        const answers = await Promise.all(Array.from({ length: ASKED_AT_ONCE }, () => ready()));
        refused.push(...answers.filter(({ status }) => status !== 200));
        isBack = answers.at(-1)!.status === 200 && isThereAgain(pid);
      }
    } while (refused.length === 0);
    for (const { status, headers, body } of refused) {
      expect({ status, body }).toMatchObject({
        status: 503,
        body: { type: 'urn:lastheard:problem:not-ready' },
      });
      expect(Number(headers['retry-after'])).toBeGreaterThan(0);
    }
    expect(serverPid(directory)).not.toBe(pid);
    expect(complaints().filter((line) => line.includes('Not ready'))).toHaveLength(1);
    expect(main.out).toContain(`(process ${pid}) is gone; starting it again`);
    await supertest(address).get('/api/v1/sites').expect(401);
  });

  it('and cannot be started again ends the process', async () => {
    appendFileSync(join(directory, 'server', 'data', 'postgresql.conf'), '\nno_such_setting = 1\n');
    const pid = serverPid(directory);
    process.kill(pid, 'SIGKILL');
    expect(await main.ended()).toBe(1);
    expect(main.err).toContain('The built-in database server did not start');
    expect(main.err).toContain('no_such_setting');
    expect(processState(pid)).not.toBe('S');
  });
});
