import { describe, expect, it } from '@jest/globals';
import type { Outcome } from '../plan/error-rates.js';
import type { FunctionName } from '../plan/functions.js';
import { wordsIn } from '../words/index.js';
import { type Answer, askFirst } from './ask-first.js';
import type { Heard } from './observation.js';

const heard = (node: string, name: FunctionName, outcome: Outcome = 'fails'): Heard => ({
  id: node,
  trunk: 'A',
  node,
  function: name,
  outcome,
  saidBy: 'office',
  saidByKind: 'office',
  how: 'volunteered',
  observedAt: new Date('2026-01-01T08:00:00Z'),
  period: 0,
  withdrawalId: null,
});
const ask = (all: Heard[], answers: [string, Answer][] = []) =>
  askFirst(all, new Map(answers), (_trunk, node) => `Room ${node}`, wordsIn('en'));

describe('askFirst', () => {
  it('asks nothing when everything works', () => {
    expect(ask([heard('1', 'bell', 'works')])).toEqual([]);
  });

  it('asks whether the head-end is on, and about the day only when bells were missed', () => {
    expect(ask([heard('1', 'lamp')]).map(({ question }) => question)).toEqual(['head-end-on']);
    expect(ask([heard('1', 'bell')]).map(({ question }) => question)).toContain('ordinary-day');
  });

  it('asks about the volume in a few silent rooms, but not in half a building', () => {
    const few = ask([heard('1', 'announcement'), heard('1', 'bell'), heard('2', 'bell')]);
    expect(few.map(({ text }) => text)).toEqual(
      expect.arrayContaining([
        'Is the volume knob in Room 1 turned up?',
        'Is the volume knob in Room 2 turned up?',
      ]),
    );
    expect(few).toHaveLength(4);
    const many = ['1', '2', '3', '4'].map((node) => heard(node, 'announcement'));
    expect(ask(many).map(({ question }) => question)).toEqual(['head-end-on']);
  });

  it('advises when an answer may be the whole fault', () => {
    const [question] = ask([heard('1', 'lamp')], [['head-end-on', 'no']]);
    expect(question).toMatchObject({
      answer: 'no',
      advice: expect.stringContaining('switched on'),
    });
    const [fine] = ask([heard('1', 'lamp')], [['head-end-on', 'yes']]);
    expect(fine).toMatchObject({ answer: 'yes', advice: null });
  });
});
