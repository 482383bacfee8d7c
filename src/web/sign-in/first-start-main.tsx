import { render } from 'preact';
import { titlePage } from '../parts/language.js';
import { beginAnewOnAnotherLink, hideSecret, readShownSecret } from '../parts/shown-secret.js';
import { FirstStartPage } from './first-start-page.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

titlePage(SIGN_IN_WORDS.titles.firstStart);
const page = document.getElementById('page');
if (page !== null) {
  beginAnewOnAnotherLink();
  const code = readShownSecret();
  // In memory alone from here on: the log has it still, until it was used.
  if (code !== undefined) hideSecret();
  render(<FirstStartPage code={code} />, page);
}
