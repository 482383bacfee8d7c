import { render } from 'preact';
import { beginAnewOnAnotherLink, hideSecret, readShownSecret } from '../parts/shown-secret.js';
import { FirstStartPage } from './first-start-page.js';

const page = document.getElementById('page');
if (page !== null) {
  beginAnewOnAnotherLink();
  const code = readShownSecret();
  // In memory alone from here on: the log has it still, until it was used.
  if (code !== undefined) hideSecret();
  render(<FirstStartPage code={code} />, page);
}
