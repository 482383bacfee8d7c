import { coveredHoursIn } from '../covered-hours.js';
import { minutesIn, moneyIn, spanIn } from '../review-figures.js';
import type { ReviewWords } from '../review-words.js';
import { EN_FORMATS as formats } from './formats.js';

const span = spanIn(formats, { hour: 'h', days: 'days' });

const TRENDS = {
  laplace: 'Laplace test',
  logSum: 'χ² test for a power law',
  reverseArrangements: 'reverse arrangements',
};

export const EN_REVIEW: ReviewWords = {
  language: 'en',
  formats,
  title: (contract) => `Review: ${contract}`,
  period: (from, last) => `${formats.day(from)} to ${formats.day(last)}`,
  coveredHours: coveredHoursIn({
    locale: 'en-GB',
    and: formats.and,
    roundTheClock: 'The hours count round the clock, on all seven days.',
    on: (hours) => `The hours count on ${hours}.`,
    onDay: (day, from, until) => `${day} ${from} to ${until}`,
    onDays: (first, last, from, until) => `${first} to ${last} ${from} to ${until}`,
  }),
  page: (page, pages, asOf) => `As of ${asOf}. Page ${page} of ${pages}.`,
  headings: {
    promisedVisits: 'Visits promised',
    visits: 'Visits made',
    promises: 'Response and restore against promise',
    tickets: 'Every ticket with its clock',
    availability: 'Availability in covered hours',
    reliability: 'How often something fails',
    advised: 'What is advised next',
    signatures: 'Signatures',
  },
  columns: {
    site: 'Site',
    slot: 'Promised for',
    standing: 'Standing',
    madeOn: 'Visit on',
    day: 'Day',
    technician: 'Who',
    work: 'What was done',
    minutes: 'Minutes',
    signed: 'Signed by',
    promise: 'Promise',
    met: 'Kept',
    breached: 'Not kept',
    open: 'Open',
    mean: 'Mean, covered time',
    function: 'Function',
    rooms: 'Rooms',
    roomHours: 'Room-hours',
    lost: 'Lost',
    available: 'There',
  },
  standings: {
    done: 'made in time',
    'done-late': 'made late',
    planned: 'planned',
    due: 'due now',
    late: 'owed',
    missed: 'missed',
    'to-come': 'to come',
  },
  functions: {
    lamp: 'lamp',
    announcement: 'announcements',
    bell: 'bell',
    music: 'music',
    'room-call': 'calls to single rooms',
    talkback: 'talking back',
  },
  promises: { response: 'somebody on site', restore: 'working again' },
  promiseStates: { running: 'running', paused: 'paused', met: 'kept', breached: 'not kept' },
  ticket: (number, site) => `Ticket ${number}, ${site}`,
  ticketsElsewhere: (count) =>
    formats.plural(count, {
      one: '# further ticket of these sites goes by another contract or by none.',
      other: '# further tickets of these sites go by another contract or by none.',
    }),
  none: 'None.',
  found: (words) => `Found: ${words}.`,
  nothingFound: 'Nothing was found at fault.',
  mended: (what, mending) =>
    `Mended${mending === 'temporary' ? ' for the time being' : ''}: ${what}`,
  breachCause: (cause) => `Why not: ${cause}`,
  minutes: minutesIn('h', 'min'),
  money: moneyIn('en-GB'),
  hours: (hours) => formats.figure(hours, 6),
  availabilityNote:
    'Rooms times hours that the contract covers. A function counts as lost at a room from when it was said to fail or to be weak there until it was heard again or mended.',
  record: ({ failures, siteHours, since }) =>
    `${formats.plural(failures, { one: '# failure that was', other: '# failures that were' })} found and mended in ${span(siteHours)} of all sites together, since ${formats.day(since)}.`,
  mtbf: ({ mtbfHours, lowHours, highHours }, confidence) => {
    const sure = formats.percent(Math.round(100 * confidence));
    if (mtbfHours === null || highHours === null) {
      return `No failure is on record: the mean time between failures of a site is above ${span(lowHours)} with ${sure}.`;
    }
    return `Mean time between failures of a site: ${span(mtbfHours)} (${span(lowHours)} to ${span(highHours)} with ${sure}).`;
  },
  posterior: ({ medianHours, lowHours, highHours }, from) =>
    `With what ${from === 'firm' ? 'the firm knew before' : 'is known of such systems'}: ${span(medianHours)} (${span(lowHours)} to ${span(highHours)}).`,
  growth: (growth, mtbfHours) =>
    `By a power law failures grow ${growth >= 0 ? 'rarer' : 'more frequent'} (growth ${formats.figure(growth, 2)}); at the end of the record a site goes ${span(mtbfHours)}.`,
  trend: (name, pRarer) => {
    const towards = pRarer <= 0.5 ? 'rarer' : 'more frequent';
    const chance = formats.chance(Math.min(pRarer, 1 - pRarer));
    return `Trend, ${TRENDS[name]}: towards ${towards}; without any trend as strong a sign comes with ${chance}.`;
  },
  trendWarning: {
    few: 'These are few cases: only a strong trend would show.',
    'too-few': 'With fewer than four failures no test can tell a trend.',
  },
  siteAvailable: (availability, hoursToRestore) =>
    `With ${span(hoursToRestore)} until all works again, a site is whole ${formats.figure(100 * availability, 4)} % of the time.`,
  advised: ({ chance, chanceRenewed, cost, paysBackYears }) => {
    const chances = `fails next year with ${formats.chance(chance)}, renewed with ${formats.chance(chanceRenewed)}`;
    const costs = cost === null ? '' : `; to renew it on a planned visit costs ${cost}`;
    const back =
      paysBackYears === null
        ? ''
        : `, which pays back in ${formats.figure(paysBackYears, 2)} years`;
    return `${chances}${costs}${back}`;
  },
  unfinished: (number, site, dueOn) =>
    `Ticket ${number}, ${site}: mended for the time being${dueOn === null ? '' : `, to be mended for good by ${formats.day(dueOn)}`}.`,
  nothingAdvised: 'No joint fails more often than others of its kind.',
  signedBy: (name, at) => `${name}, ${at}`,
  sheet: {
    columns: { section: 'section', site: 'site', of: 'of', figure: 'figure', value: 'value' },
    sections: {
      promisedVisits: 'promised visits',
      visits: 'visits',
      tickets: 'tickets',
      clocks: 'clocks',
      parts: 'parts',
      promises: 'promises',
      availability: 'availability',
      reliability: 'reliability',
      advised: 'advised',
      unfinished: 'unfinished',
    },
  },
  toSign: ['For the client: name, day, signature', 'For the firm: name, day, signature'],
};
