import { describe, expect, it } from '@jest/globals';
import { pageWordsIn } from '#app/words/index.js';
import { calledTogether, groupRooms, nameOf } from './room-groups.js';

const room = (node: string, block: string | null, floor: string | null, trunk = 'A') => ({
  trunk,
  node,
  room: `Room ${node}`,
  block,
  floor,
  groups: [] as string[],
});

const EN = pageWordsIn('en');

describe('groupRooms', () => {
  it('keeps the order of the trunk and begins anew where block or floor changes', () => {
    const groups = groupRooms(
      [
        room('1', 'Main', 'ground'),
        room('2', 'Main', 'ground'),
        room('3', 'Main', '1'),
        room('4', 'Main', 'ground'),
        room('5', null, 'basement'),
      ],
      EN,
    );
    expect(groups.map(({ title, rooms }) => [title, rooms.map(({ node }) => node)])).toEqual([
      ['Main, ground floor', ['1', '2']],
      ['Main, floor 1', ['3']],
      ['Main, ground floor', ['4']],
      ['basement', ['5']],
    ]);
  });

  it('names the line only where there are several and nothing better to tell by', () => {
    expect(groupRooms([room('1', null, null)], EN)[0]!.title).toBe('');
    const two = groupRooms([room('1', null, null), room('1', null, null, 'B')], EN);
    expect(two.map(({ title }) => title)).toEqual(['Line A', 'Line B']);
  });
});

describe('calledTogether', () => {
  it('is the groups of some rooms, wherever they hang, and no group of all', () => {
    const of = (node: string, groups: string[]) => ({ ...room(node, null, null), groups });
    const rooms = [
      of('1', ['Upper school', 'All']),
      of('2', ['All']),
      of('3', ['Upper school', 'All']),
    ];
    expect(calledTogether(rooms).map(({ title, rooms: some }) => [title, some.length])).toEqual([
      ['Upper school', 2],
    ]);
  });
});

describe('nameOf', () => {
  it('is the code on the drawing where there is no name', () => {
    expect(nameOf({ room: null, node: 'A7' }, EN)).toBe('Unit A7');
  });
});
