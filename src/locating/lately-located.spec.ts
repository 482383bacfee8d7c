import { expect, test } from '@jest/globals';
import { LatelyLocated } from './lately-located.js';

const located = (characters: number) => ({
  answer: 'x'.repeat(characters),
  places: '',
  officeChecks: '',
  predicted: '',
});

test('the oldest are forgotten where all are too long together, and what is too long by itself is not held', () => {
  const lately = new LatelyLocated();
  for (let number = 0; number < 12; number++) lately.add(`${number}`, located(2_000_000));
  const held = Array.from({ length: 12 }, (_, number) => lately.get(`${number}`) !== undefined);
  expect(held).toEqual([...Array<boolean>(8).fill(false), ...Array<boolean>(4).fill(true)]);
  lately.add('long', located(8_000_001));
  lately.add('11', located(1));
  expect(lately.get('long')).toBeUndefined();
  expect(lately.get('11')?.answer).toHaveLength(2_000_000);
});
