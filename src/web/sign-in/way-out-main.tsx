import { render } from 'preact';
import { beginAnewOnAnotherLink, readShownSecret } from '../parts/shown-secret.js';
import { WayOutPage } from './way-out-page.js';

const page = document.getElementById('page');
if (page !== null) {
  beginAnewOnAnotherLink();
  render(<WayOutPage link={readShownSecret()} />, page);
}
