import { formatsOf } from '../formats.js';

export const FR_FORMATS = formatsOf('fr', {
  lessThan: (percent) => `moins de ${percent}`,
  moreThan: (percent) => `plus de ${percent}`,
});
