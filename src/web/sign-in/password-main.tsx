import { render } from 'preact';
import { PasswordPage } from './password-page.js';
import { beginAnewOnAnotherLink, hideSecret, readShownSecret } from '../parts/shown-secret.js';

const page = document.getElementById('page');
if (page !== null) {
  beginAnewOnAnotherLink();
  const link = readShownSecret();
  // In memory alone from here on: the mail has it still, until it was used.
  if (link !== undefined) hideSecret();
  render(<PasswordPage link={link} />, page);
}
