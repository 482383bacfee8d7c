import { clockSentences } from '../clock-sentences.js';

export const EN_CLOCK = clockSentences({
  language: 'en',
  locale: 'en-GB',
  troubleClass: {
    'whole-site': 'the whole site is silent',
    'whole-trunk': 'a whole trunk is silent',
    'several-rooms': 'several rooms are silent',
    'one-room': 'one room is silent',
  },
  units: ['h', 'min', 's'],
  usedUp: 'used up',
  left: (duration) => `${duration} left`,
  range: (from, to) => `${from} to ${to}`,
  noHours: (days) => `${days}: no hours`,
  closed: (days, why) => `${days}: closed (${why})`,
  closedBy: {
    'public-holiday': 'public-holiday',
    'closed-day': 'closed-day',
    calendar: 'calendar',
  },
  pausedFor: {
    'no-access': 'no access',
    'waiting-for-client': 'waiting for the client',
    'part-on-order': 'a part is on order',
    closed: 'the ticket was closed',
  },
  paused: (from, until, reason) =>
    `paused from ${from} ${until === null ? 'on' : `to ${until}`}: ${reason}`,
  further: (lines, duration) => `${lines} more lines: ${duration}`,
  promised: { response: 'somebody on site', restore: 'working again' },
  within: (what, duration) => `${what} within ${duration}`,
  reported: (at) => `reported ${at}`,
  standsStill: 'it stands still',
  neverOpens: 'the hours do not open for long enough',
});
