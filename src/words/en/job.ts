import type { JobWords } from '../job-words.js';
import { EN_FORMATS as formats } from './formats.js';

const MARKS = { works: 'heard', weak: 'weak', fails: 'silent' };

export const EN_JOB: JobWords = {
  language: 'en',
  title: (site, on) => `Job sheet: ${site}, ${formats.day(on)}`,
  page: (page, pages, madeAt) => `Made ${madeAt}. Page ${page} of ${pages}.`,
  when: (from, until, technician) => {
    const time =
      from === null
        ? 'Some time of the day'
        : `From ${from}${until === null ? '' : ` to ${until}`}`;
    return `${time}, ${technician ?? 'nobody named yet'}`;
  },
  headings: {
    safety: 'Before you begin',
    said: 'What was said',
    plan: 'What to do, step by step',
    checks: 'What tells most',
    parts: 'Parts to carry',
    lastVisits: 'Visits before',
  },
  ticket: (number) => `Ticket ${number}`,
  furtherSaid: (count) =>
    `${formats.plural(count, { one: 'One more thing was said, and stands', other: '# more things were said, and stand' })} at the ticket alone.`,
  noPlace: 'What was said contradicts itself: ask again who heard what.',
  trunk: (trunk) => `Trunk ${trunk}, from the head-end on`,
  headEnd: 'head-end',
  goesOn: (node) => (node === null ? 'goes on' : `goes on from ${node}`),
  notDrawn: (nodes) =>
    `${formats.plural(nodes, { one: 'One more room or joint is', other: '# more rooms and joints are' })} not drawn here; the ticket shows them all.`,
  node: (name, code, outcome, isLooked) => {
    const said = outcome === null ? '' : `, ${MARKS[outcome]}`;
    const named = name.includes(code) ? name : `${name} (${code})`;
    return `${named}${said}${isLooked ? ': look before it first' : ''}`;
  },
  metres: (metres) => `${formats.figure(metres, 4)} m`,
  part: ({ id, neededChance, isCarried, isInVan }) => {
    const take = isInVan === null ? ', take it' : ', not in the van: load it before leaving';
    return `${id.replaceAll('-', ' ')}: needed with ${formats.chance(neededChance)}${isInVan === true ? ', in the van' : isCarried ? take : ''}`;
  },
  secondTrip: (chance) => `That a part is missing all the same: ${formats.chance(chance)}.`,
  further: (numbers) => `Further tickets of this visit: ${numbers.join(', ')}.`,
  none: 'None.',
};
