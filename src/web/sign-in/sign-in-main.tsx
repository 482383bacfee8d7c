import { render } from 'preact';
import { titlePage } from '../parts/language.js';
import { SignInPage } from './sign-in-page.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

titlePage(SIGN_IN_WORDS.titles.signIn);
const page = document.getElementById('page');
if (page !== null) render(<SignInPage />, page);
