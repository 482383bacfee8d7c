export const EN_QUARTER = {
  title: 'The quarter',
  from: (day: string) => `Thirteen weeks from ${day}`,
  otherStart: 'Another first day',
  what: 'The visits that contracts promise are put on days and technicians. Nobody is sent by it until you book them.',
  owed: (count: number) =>
    count === 0
      ? 'Every visit that is promised in these weeks is booked.'
      : count === 1
        ? '1 promised visit is not booked yet.'
        : `${count} promised visits are not booked yet.`,
  owedWhere: 'Each lies on its best day, until it is planned.',
  cutOff: 'There is more than a plan takes: what begins later was left out.',
  make: 'Plan these weeks',
  makeAnew: 'Plan them anew',
  firstOne: 'Looking for a first plan…',
  better: (cost: number, bound: number) =>
    `A first plan is there: it weighs ${cost}, and none can weigh less than ${bound}. Looking for a better one…`,
  atMost: (seconds: string) => `${seconds}; it takes some 10 s at most.`,
  stop: 'Keep the first one',
  placed: (placed: number, left: number) =>
    left === 0 ? `${placed} visits placed, none left.` : `${placed} visits placed, ${left} left.`,
  isFirst: 'This is the first plan that was found: a better one was not waited for.',
  weighs:
    'Minutes on the road are added up, 2 for each day that a visit is away from its best one, and more for what is left.',
  made: (at: string) => `Made ${at}.`,
  moved: (count: number) =>
    count === 1
      ? '1 visit lies elsewhere than before.'
      : `${count} visits lie elsewhere than before.`,
  drawnBy: 'Drawn by',
  byTechnician: 'technician',
  byArea: 'area',
  weeks: 'Week by week',
  weekOf: (day: string) => `Week of ${day}`,
  notPlanned: 'Not planned yet',
  nothing: 'nothing',
  near: (site: string, others: number) =>
    others === 0
      ? site
      : others === 1
        ? `${site} and 1 site near it`
        : `${site} and ${others} sites near it`,
  oneWay: (visits: number) => `one way for ${visits}`,
  was: (place: string) => `before: ${place}`,
  legendBest: 'best day',
  legendHere: 'where it lies',
  pull: (days: number) =>
    days === 0
      ? 'on its best day'
      : days === 1
        ? '1 day after its best'
        : days === -1
          ? '1 day before its best'
          : days > 0
            ? `${days} days after its best`
            : `${-days} days before its best`,
  late: 'late',
  wanted: (name: string) => `as ${name} wants it`,
  asTable: 'The same as a table',
  csv: 'Download as CSV',
  day: 'Day',
  who: 'Who',
  where: 'Where',
  best: 'Best day',
  away: 'Days away from it',
  visitOf: (ordinal: number, year: number) => `Visit ${ordinal} of contract year ${year}`,
  contract: 'Its contract',
  toDay: 'That day',
  close: 'Close',
  why: 'Why it lies here',
  onBest: 'This is its best day.',
  bestGone: (day: string) =>
    `Its best day, ${day}, has gone by: the sooner it is made, the better.`,
  bestIs: (day: string) => `Its best day is ${day}.`,
  bestWeighs: (minutes: number) =>
    minutes === 0
      ? 'That day would weigh the same.'
      : minutes > 0
        ? `That day would weigh ${minutes} minutes more.`
        : `That day would weigh ${-minutes} minutes less.`,
  bestNot: 'It cannot be made then, because of:',
  oneWayWith: (sites: string) => `One way does for it and ${sites}.`,
  nextBest: (day: string, name: string, minutes: number) =>
    minutes === 0
      ? `It could as well be on ${day} with ${name}: that would weigh the same.`
      : minutes > 0
        ? `The next best is ${day} with ${name}: ${minutes} minutes more.`
        : `Better would be ${day} with ${name}: ${-minutes} minutes less.`,
  nothingElse: 'No other day and nobody else is possible.',
  left: 'What could not be placed, and why',
  allPlaced: 'Everything is placed.',
  anyOne: 'Any one of these lines giving way is enough:',
  whyLeft: {
    'no-day': 'No day is open for it in these weeks.',
    'nobody-there': 'Nobody works long enough on the days that are open for it.',
    'no-room': 'No time is left beside what is placed.',
    'weighs-less': 'It could be placed, but the way there weighs more than leaving it.',
    wishes: 'What is wanted of it cannot all be.',
    'said-so': 'It was left out on purpose.',
  },
  constraint: {
    room: 'what else is planned then',
    notOn: 'the days that you ruled out',
    on: 'the day that you named',
    notBy: 'who you ruled out',
    pinnedTo: 'who you named',
    skills: 'the skills that it needs',
    hours: 'anybody’s working hours',
    'contract-days': 'the days that the contract leaves open',
  },
  want: 'What you want of it',
  wants: {
    best: 'As the plan finds best',
    stay: (place: string) => `It stays here: ${place}`,
    move: 'On the day, or with whom I say',
    'not-then': (day: string) => `Not on ${day}`,
    'not-who': (name: string) => `Not ${name}`,
    left: 'Not in this plan',
  },
  wantLabel: 'Where it lies',
  toOn: 'On this day',
  toOnHint: 'Empty: whichever day is best.',
  toWho: 'With',
  anybody: 'Whoever is best',
  ruledOut: (what: string) => `Ruled out so far: ${what}.`,
  allowAgain: 'Allow them again',
  skills: 'It needs somebody who can do',
  reason: 'Why',
  noReason: 'Please say why, for whoever plans after you.',
  noPlace: 'Name a day, or who makes it.',
  because: (name: string, at: string, reason: string) =>
    `${name} wanted it so at ${at}, because: ${reason}`,
  wantedMeanwhile:
    'Somebody else has wanted something of this visit meanwhile: it is shown above. Keep yours once more to put it in its place.',
  keep: 'Keep this, and plan anew',
  keeping: 'Planning…',
  book: (count: number) => (count === 1 ? 'Book 1 visit' : `Book all ${count} visits`),
  bookWhat: 'They are booked together, or none is.',
  booking: 'Booking…',
  bookAll: 'It is meant so: book them',
  atVisit: (site: string, day: string, reason: string) => `${site}, ${day}: ${reason}`,
  booked: (count: number) => (count === 1 ? '1 visit is booked.' : `${count} visits are booked.`),
  forget: 'Forget this plan',
};
