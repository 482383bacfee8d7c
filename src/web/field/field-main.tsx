import { render } from 'preact';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { FieldPlace } from './field-place.js';

document.documentElement.lang = PAGE_LANGUAGE;
const page = document.getElementById('page');
if (page !== null) render(<FieldPlace />, page);

// Without it the place works as well, as long as there is a signal.
navigator.serviceWorker?.register('/field-worker.js', { scope: '/field' }).catch(() => undefined);
