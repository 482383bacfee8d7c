import { render } from 'preact';
import { uuidv7 } from 'uuidv7';
import { keepFocus } from '../parts/keep-focus.js';
import { keepIn } from '../parts/kept.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { PassPage } from './pass-page.js';
import { beginAnewOnAnotherLink, readShownSecret } from '../parts/shown-secret.js';
import { Sitting } from './sitting.js';

const page = document.getElementById('page');
if (page !== null) {
  document.documentElement.lang = PAGE_LANGUAGE;
  beginAnewOnAnotherLink();
  keepFocus(page);
  const sitting = new Sitting(
    readShownSecret(),
    keepIn(() => sessionStorage),
    uuidv7,
  );
  render(<PassPage sitting={sitting} />, page);
}
