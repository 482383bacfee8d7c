import { render } from 'preact';
import { DeskPlace } from './desk-place.js';

const page = document.getElementById('page');
if (page !== null) render(<DeskPlace />, page);
