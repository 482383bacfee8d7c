import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { whileLookedAt } from './while-looked-at.js';

class Events extends EventTarget {
  static readonly CLOSED = 2;
  static made: Events[] = [];
  readyState = 1;

  constructor() {
    super();
    Events.made.push(this);
  }

  close() {
    this.readyState = Events.CLOSED;
  }
}

describe('whileLookedAt', () => {
  let page: EventTarget & { visibilityState: string };
  let window: EventTarget;
  let times: number;
  let end: () => void;

  beforeEach(() => {
    jest.useFakeTimers();
    Events.made = [];
    page = Object.assign(new EventTarget(), { visibilityState: 'visible' });
    window = new EventTarget();
    const addEventListener = window.addEventListener.bind(window);
    Object.assign(globalThis, { document: page, EventSource: Events, addEventListener });
    times = 0;
    end = whileLookedAt(() => times++, 30_000);
  });

  afterEach(() => {
    end();
    jest.useRealTimers();
  });

  const tell = (target: EventTarget | undefined, type: string) => {
    target?.dispatchEvent(new Event(type));
    jest.advanceTimersByTime(1000);
  };
  const look = (visibilityState: string) => {
    page.visibilityState = visibilityState;
    tell(page, 'visibilitychange');
  };

  it('reads once for what changes at once, and nothing while nobody looks', () => {
    const [events] = Events.made;
    for (let n = 0; n < 9; n++) events?.dispatchEvent(new Event('change'));
    tell(events, 'missed');
    expect(times).toBe(1);
    look('hidden');
    expect(events?.readyState).toBe(Events.CLOSED);
    jest.advanceTimersByTime(300_000);
    expect(times).toBe(1);
    look('visible');
    expect(times).toBe(2);
    jest.advanceTimersByTime(31_000);
    expect(times).toBe(3);
  });

  it('reads when the signal is back, though only the events tell of it', () => {
    const [events] = Events.made;
    tell(events, 'open');
    expect(times).toBe(0);
    tell(events, 'error');
    tell(events, 'open');
    expect(times).toBe(1);
    tell(window, 'online');
    expect(times).toBe(2);
  });

  it('listens anew where the browser gave up, and no longer once it is ended', () => {
    Events.made.at(-1)?.close();
    jest.advanceTimersByTime(31_000);
    expect(Events.made.at(-1)?.readyState).toBe(1);
    expect(times).toBe(1);
    end();
    tell(window, 'online');
    look('visible');
    jest.advanceTimersByTime(300_000);
    expect(times).toBe(1);
  });
});
