import type { OfficeWords, PageWords, TicketStateName } from '../office-words.js';
import { EN_FORMATS as formats } from './formats.js';

const SOUND = { fails: 'silent', works: 'heard', weak: 'faint' };

export const EN_PAGES: PageWords = {
  language: 'en',
  ownName: 'English',
  oneMoment: 'One moment…',
  tryAgain: 'Try again',
  send: 'Send',
  sending: 'Sending…',
  functions: {
    announcement: { tried: 'Announcement', ...SOUND },
    bell: { tried: 'Bell', ...SOUND },
    music: { tried: 'Music', ...SOUND },
    lamp: { tried: 'Lamp on the unit', fails: 'dark', works: 'lit', weak: 'dim' },
    'room-call': { tried: 'Call to one room', ...SOUND },
    talkback: { tried: 'Room speaks to the office', ...SOUND },
  },
  unit: (code) => `Unit ${code}`,
  line: (trunk) => `Line ${trunk}`,
  // "ground" and "1" want a word more; "basement store" does well as it is.
  floor: (floor) =>
    /floor|basement|cellar|attic|roof/i.test(floor)
      ? floor
      : `${floor} floor`.replace(/^(-?\d+) floor$/, 'floor $1'),
  instant: formats.instant,
  pen: {
    label: 'Here, with a finger or a pen (you need not)',
    box: (isDrawn) => (isDrawn ? 'Signed here by hand' : 'Nothing is drawn yet'),
    again: 'Draw it anew',
  },
  movedMeanwhile: 'Its state changed meanwhile, and this cannot be done any more.',
  notReached:
    'The service was not reached. Nothing that you entered is lost: try again in a moment.',
  notReady: 'Something went wrong at the service. Nothing that you entered is lost.',
  closedMeanwhile: 'This was closed meanwhile. Load the page again to see how things stand.',
  wentWrong: 'Something went wrong at the service.',
  nothingHere: 'There is nothing here',
  nothingHereWhy: 'The address may be mistyped, or what it was about is gone.',
  failedNow: 'This did not work just now',
  maybeOld: (reason) => `This may be out of date: ${reason}`,
};

const STATES: Readonly<Record<TicketStateName, string>> = {
  reported: 'The firm has it and decides what comes next.',
  'to-visit': 'Somebody will come.',
  'at-work': 'Somebody is working on it.',
  bridged: 'It works for now; somebody will come back to mend it for good.',
  mended: 'It is mended; it is still to be tried in every room.',
  closed: 'It is closed.',
  merged: 'It was joined to another ticket.',
};

const fromOf = (next: { fromTime: string | null }) =>
  next.fromTime === null ? '' : ` from ${next.fromTime}`;

export const EN_OFFICE: OfficeWords = {
  title: (site) => `Report silent rooms: ${site}`,
  report: {
    heading: 'Report silent rooms',
    whatTried: 'What did you try?',
    whichRooms: 'Which rooms?',
    rooms: 'Rooms',
    touch: ({ fails, works, weak }) =>
      `Touch a room once: ${fails}. Twice: ${works}. Three times: ${weak}. Once more: not said. Rooms that you know were ${works} help as much as those that were ${fails}.`,
    notSaid: 'not said',
    yourName: 'Your name',
    count: ({ fails, works, weak }, words) =>
      [
        `${formats.figure(fails, 9)} ${words.fails}`,
        `${formats.figure(works, 9)} ${words.works}`,
        ...(weak > 0 ? [`${formats.figure(weak, 9)} ${words.weak}`] : []),
      ].join(', '),
    everywhere: 'Everywhere',
    all: (mark) => `all ${mark}`,
    clear: 'clear',
    oddities: {
      legend: 'Was anything else odd?',
      humming: 'It hums',
      crackling: 'It crackles',
      'wrong-time': 'It came at the wrong time',
    },
    note: 'Anything else (you need not)',
    urgent: 'It cannot wait',
    whyUrgent: 'Why it cannot wait',
    callBack: 'A number to call you back on (you need not)',
    inWords: {
      label: 'Which rooms, and what is silent there?',
      hint: 'Nobody has drawn this site yet: say it in your own words.',
    },
    missing: {
      something: 'Something is missing.',
      tried: 'Please say what you tried.',
      rooms: 'Please touch the rooms that were silent.',
      name: 'Please say who you are.',
      whyUrgent: 'Please say why it cannot wait.',
      inWords: 'Please say which rooms, and what is silent there.',
    },
    thanks: (numbers) =>
      `Thank you. ${formats.plural(numbers.length, { one: 'Your ticket is number', other: 'Your tickets are numbers' })} ${formats.and(numbers.map(String))}.`,
    more: 'Report more rooms',
  },
  ring: (firm) => `Or ring ${firm}:`,
  nextVisit: (next) =>
    next === null
      ? 'No visit is set yet. As soon as the service firm has set one, its day stands here.'
      : `Somebody is due on ${formats.day(next.on)}${fromOf(next)} (${next.kind === 'planned' ? 'a planned visit' : 'a call-out'}).`,
  atWork: 'Somebody from the service firm is at work here now.',
  mayChange:
    'The day may change if something more urgent comes in elsewhere. What holds stands here.',
  ticket: {
    heading: (number) => `Ticket ${number}`,
    since: (instant) => `Since ${instant}.`,
    states: STATES,
    open: 'What you can check',
    ofTicket: (number) => `for ticket ${number}`,
    openHeading: 'Open tickets',
    openCount: (count) => `Open tickets: ${formats.figure(count, 9)}`,
    notWorking: (tried, rooms) => `${tried}, not working in: ${rooms.join(', ')}`,
    saidToWork: (tried, rooms) =>
      `${tried}, said to work again in: ${rooms.join(', ')}. The technician will try it there.`,
  },
  check: {
    heading: 'Worth a look now',
    why: 'Each of these may spare a visit or shorten it.',
    lookOnly:
      'Only look and listen. Please open nothing, unplug nothing and climb nothing, and do not disturb lessons or work for it. What you cannot do easily, leave to the technician.',
    suggestion: (words, minutes) =>
      `${words.charAt(0).toUpperCase()}${words.slice(1)}. Takes about ${formats.plural(minutes, { one: 'a minute', other: '# minutes' })}.`,
    wasItSo: 'Was it so before you began?',
    andNow: 'And now?',
    answers: { yes: 'yes', no: 'no', unknown: 'cannot say' },
    noted: 'Thank you, that is noted.',
  },
  sign: {
    heading: 'Work to sign for',
    count: (count) => `To sign: ${formats.figure(count, 9)}`,
    visit: (day) => `Visit on ${formats.day(day)}`,
    nothingWritten: 'The technician wrote nothing about the work.',
    remark: 'Remark (you need not)',
    button: 'Sign with my name',
    signed: (day, name) => `Visit on ${formats.day(day)}: signed as ${name}. Thank you.`,
  },
  emergency: {
    label: 'Emergency calls',
    heading: 'This system also carries emergency calls.',
    text: 'Where rooms are silent, tell the person responsible for safety now, put the agreed substitute in place, and note the times.',
  },
  over: {
    replaced: 'This poster was replaced',
    openLink: 'Please open the poster’s link',
    notNow: 'This did not work just now',
    scanAgain:
      'Please scan the code on the poster again, or open its link. A sitting ends when the page is not used for an hour.',
  },
};
