import { render } from 'preact';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { loadDeskWords } from './words/loaded.js';

document.documentElement.lang = PAGE_LANGUAGE;

// What is shown says something as soon as it is imported.
void loadDeskWords(PAGE_LANGUAGE).then(async () => {
  const { DeskPlace } = await import('./desk-place.js');
  const page = document.getElementById('page');
  if (page !== null) render(<DeskPlace />, page);
});
