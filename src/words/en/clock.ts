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
  paused: {
    'no-access': 'no access',
    'waiting-for-client': 'waiting for the client',
    'part-on-order': 'a part is on order',
    closed: 'the ticket was closed',
  },
  promised: { response: 'somebody on site', restore: 'working again' },
  units: { hours: 'h', minutes: 'min', seconds: 's' },
  fromTo: (from, to) => `${from} to ${to}`,
  left: (duration) => `${duration} left`,
  usedUp: 'used up',
  noHours: 'no hours',
  closed: (why) => `closed (${why})`,
  closedWhy: {
    'public-holiday': 'public holiday',
    'closed-day': 'closed day',
    calendar: 'holidays',
  },
  pausedFrom: (from, until) => `paused from ${from} ${until === null ? 'on' : `to ${until}`}`,
  further: (lines) => `${lines} more lines`,
  within: (what, duration) => `${what} within ${duration}`,
  reported: (when) => `reported ${when}`,
  standsStill: 'it stands still',
  neverOpen: 'the hours do not open for long enough',
});
