export const EN_CLOSED_DAYS = {
  title: 'Closed days',
  hint: 'School holidays, exams, days on which the works is closed: contracts name the calendars whose days do not count, or on which no visit is made.',
  none: 'There is no calendar yet.',
  closes: (times: number, days: number) =>
    `${times === 1 ? '1 time' : `${times} times`}, ${days === 1 ? '1 day' : `${days} days`}`,
  closesNothing: 'It closes no day.',
  leftOut: (count: number) =>
    count === 1
      ? 'One event at a time of day, or called off, closes nothing.'
      : `${count} events at times of day, or called off, close nothing.`,
  first: 'First day',
  last: 'Last day',
  what: 'What it is',
  make: 'Add a calendar',
  name: 'What it is called, such as “School holidays, Larkfield”',
  byHand: 'Add days by hand',
  addDays: 'Add these days',
  noFirst: 'Please give the first day.',
  lastBefore: 'The last day is before the first.',
  takeOut: 'Take out',
  fromText: 'Take them from an iCalendar text',
  fromTextHint: 'Its days take the place of those below; nothing is kept before you keep it.',
  file: 'A file (.ics)',
  text: 'Or paste the text',
  noText: 'Please choose a file, or paste the text.',
  see: 'See what it closes',
  reading: 'Reading…',
  read: 'The text was read.',
  line: 'Line',
  reason: 'What is wrong',
  wrong: (count: number) =>
    count === 1 ? 'One thing is wrong in the text.' : `${count} things are wrong in the text.`,
  willClose: 'What it closes',
  keep: 'Keep it',
  kept: (name: string) => `${name} is kept.`,
  change: 'Change',
  drop: 'Forget what I typed',
  changed:
    'Somebody else changed it meanwhile: your changes stand here and are not kept. Keep it again to put yours in place.',
  remove: 'Remove…',
  removeNow: 'Remove it',
  removed: (name: string) => `${name} is removed.`,
};
