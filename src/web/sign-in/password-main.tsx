import { render } from 'preact';
import { titlePage } from '../parts/language.js';
import { PasswordPage } from './password-page.js';
import { beginAnewOnAnotherLink, hideSecret, readShownSecret } from '../parts/shown-secret.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

titlePage(SIGN_IN_WORDS.titles.password);
const page = document.getElementById('page');
if (page !== null) {
  beginAnewOnAnotherLink();
  const link = readShownSecret();
  // In memory alone from here on: the mail has it still, until it was used.
  if (link !== undefined) hideSecret();
  render(<PasswordPage link={link} />, page);
}
