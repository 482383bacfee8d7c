import { formatsOf } from '../formats.js';

export const EN_FORMATS = formatsOf('en-GB', {
  lessThan: (percent) => `less than ${percent}`,
  moreThan: (percent) => `more than ${percent}`,
  percent: (whole) => `${whole} %`,
  day: (day) => day.replace(',', ''),
});
