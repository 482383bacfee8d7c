import { formatsOf } from '../formats.js';

export const ES_FORMATS = formatsOf('es', {
  lessThan: (percent) => `menos del ${percent}`,
  moreThan: (percent) => `más del ${percent}`,
});
