import { render } from 'preact';
import { titlePage } from '../parts/language.js';
import { AccountPage } from './account-page.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

titlePage(SIGN_IN_WORDS.titles.account);
const page = document.getElementById('page');
if (page !== null) render(<AccountPage />, page);
