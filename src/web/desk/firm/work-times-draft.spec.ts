import { describe, expect, it } from '@jest/globals';
import type { ReadWorkTimes } from '../../parts/wire.js';
import { WORK_TIME_GROUPS, workTimesDraft, workTimesPatch } from './work-times-draft.js';
import { EN_WORK_TIMES } from '../words/en/work-times.js';

const item = (name: string, minutes: number, from: string) => ({ name, minutes, from });
const read = {
  items: [
    item('listen', 2.5, 'own'),
    item('measure', 3.3, 'learned'),
    item('climbFloor', 2, 'own'),
  ],
} as unknown as ReadWorkTimes;

describe('work times as they are typed', () => {
  it('begin with what the firm says alone, and send only what is otherwise', () => {
    const base = workTimesDraft(read);
    expect(base).toEqual({ listen: '2.5', measure: '', climbFloor: '2' });
    expect(workTimesPatch(base, { ...base, listen: ' 2.5 ' })).toEqual({});
    const typed = { ...base, listen: '', measure: '4,5', climbFloor: 'two' };
    expect(workTimesPatch(base, typed)).toEqual({ listen: null, measure: 4.5, climbFloor: NaN });
  });

  it('are each in one group', () => {
    const grouped = Object.values(WORK_TIME_GROUPS).flat();
    expect([...grouped].sort()).toEqual(Object.keys(EN_WORK_TIMES.names).sort());
  });
});
