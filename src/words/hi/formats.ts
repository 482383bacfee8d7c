import { formatsOf } from '../formats.js';

export const HI_FORMATS = formatsOf('hi', {
  lessThan: (percent) => `${percent} से कम`,
  moreThan: (percent) => `${percent} से ज़्यादा`,
});
