import { render } from 'preact';
import { AccountPage } from './account-page.js';

const page = document.getElementById('page');
if (page !== null) render(<AccountPage />, page);
