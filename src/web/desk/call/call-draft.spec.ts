import { describe, expect, it } from '@jest/globals';
import { EMPTY_CALL, setRoom, toReporting, touchRoom } from './call-draft.js';

describe('a call', () => {
  const room = { trunk: 'A', node: 'A1' };
  const other = { trunk: 'B', node: 'A1' };

  it('goes from silent to heard, weak and not said, each room by itself', () => {
    let draft = setRoom(EMPTY_CALL, other, 'works');
    const seen = [1, 2, 3, 4].map(() => {
      draft = touchRoom(draft, room);
      return draft.said.find(({ trunk }) => trunk === 'A')?.outcome;
    });
    expect(seen).toEqual(['fails', 'works', 'weak', undefined]);
    expect(draft.said).toEqual([{ ...other, outcome: 'works' }]);
  });

  it('is volunteered until a heard room is named too', () => {
    const draft = {
      ...touchRoom(EMPTY_CALL, room),
      tried: 'bell' as const,
      caller: ' Mara Quill ',
      callBack: '0555 0142 ',
    };
    expect(toReporting(draft)).toEqual({
      saidBy: { name: 'Mara Quill', kind: 'office' },
      note: null,
      urgentReason: null,
      callBackPhone: '0555 0142',
      how: 'volunteered',
      observations: [{ ...room, function: 'bell', outcome: 'fails' }],
    });
    expect(toReporting(setRoom(draft, other, 'works')).how).toBe('gone-through');
  });
});
