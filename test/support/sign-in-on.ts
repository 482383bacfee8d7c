import type { Page } from 'playwright-core';

import { PASSWORD } from './test-app.js';

/** From an address that wants to know who asks, back to it. */
export async function signInOn(page: Page, address: string, email: string): Promise<void> {
  await page.goto(address);
  await page.getByRole('link', { name: 'Sign in' }).click();
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL(address);
}
