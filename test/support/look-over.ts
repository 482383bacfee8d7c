import { mkdirSync } from 'node:fs';
import { join } from 'node:path';

import { expect } from '@jest/globals';
import type { Page } from 'playwright-core';

import { findBarriers, overhang } from './open-browser.js';

/** SCREENSHOTS names a folder for pictures to look at. */
const PICTURES = process.env.SCREENSHOTS;

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 900 };

/** In light and dark, on a phone and at a desk: nothing in anybody's way. Leaves it in light, on the last of `sizes`. */
export async function lookOver(
  page: Page,
  name: string,
  sizes: readonly ('desk' | 'phone')[] = ['desk', 'phone'],
): Promise<void> {
  for (const size of sizes) {
    await page.setViewportSize(size === 'desk' ? DESK : PHONE);
    for (const colorScheme of ['dark', 'light'] as const) {
      // Less motion: the colours are measured as they end up.
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      await takePicture(page, `${name}-${size}-${colorScheme}`);
      expect([name, size, colorScheme, await findBarriers(page)]).toEqual([
        name,
        size,
        colorScheme,
        [],
      ]);
      expect([name, size, await overhang(page)]).toEqual([name, size, 0]);
    }
  }
}

/** A picture to look at, where pictures are taken. */
export async function takePicture(page: Page, name: string): Promise<void> {
  if (PICTURES === undefined) return;
  mkdirSync(PICTURES, { recursive: true });
  await page.screenshot({ path: join(PICTURES, `${name}.png`), fullPage: true });
}
