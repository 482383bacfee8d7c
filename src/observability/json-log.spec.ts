import { describe, expect, it } from '@jest/globals';
import { createJsonLog, toNestLogger } from './json-log.js';

function logged(act: (log: ReturnType<typeof createJsonLog>) => void): Record<string, unknown>[] {
  const lines: string[] = [];
  act(createJsonLog('info', { write: (line) => lines.push(line) }));
  return lines.map((line) => JSON.parse(line) as Record<string, unknown>);
}

/** What the database's driver throws: the values that were sent hang on it. */
const failed = Object.assign(new Error('value is out of range'), { parameters: ['a secret'] });

describe('createJsonLog', () => {
  it('writes one line of JSON, with a line break in a text as part of it', () => {
    const lines = logged((log) => log.info('one\n{"level":"error","msg":"forged"}'));
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({ level: 'info', msg: 'one\n{"level":"error","msg":"forged"}' });
  });

  it('writes of an error its stack and nothing that hangs on it', () => {
    const [line] = logged((log) => log.error({ err: failed }, 'failed'));
    expect(line).toMatchObject({ err: { stack: expect.stringContaining('out of range') } });
    expect(JSON.stringify(line)).not.toContain('a secret');
  });
});

describe('toNestLogger', () => {
  it('writes what services say at its level, errors with their stack alone', () => {
    const lines = logged((log) => {
      const nest = toNestLogger(log);
      nest.error(failed);
      nest.warn('careful');
      nest.log('mapped a route');
    });
    expect(lines.map(({ level }) => level)).toEqual(['error', 'warn']);
    expect(lines[0]?.['msg']).toContain('json-log.spec');
    expect(JSON.stringify(lines)).not.toContain('a secret');
  });
});
