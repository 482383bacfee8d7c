import { render } from 'preact';
import { SignInPage } from './sign-in-page.js';

const page = document.getElementById('page');
if (page !== null) render(<SignInPage />, page);
