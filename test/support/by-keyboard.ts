import { expect } from '@jest/globals';
import type { Page } from 'playwright-core';

import { isDrawn } from './open-browser.js';

/** More stops than any page here has: beyond it something is not reached by the keyboard. */
const MOST_TABS = 80;

/** A minute of them, as the machine may be busy. */
const MOST_LOOKS = 1200;

interface Focused {
  /** As a screen reader calls it. */
  name: string;
  tag: string;
  /** The window shows that it has it. */
  isShown: boolean;
  isInView: boolean;
}

const FOCUSED = `(() => {
  const at = document.activeElement;
  if (at === null || at === document.body) return null;
  const labels = [...(at.labels ?? [])].map((label) => label.textContent);
  const name = (at.getAttribute('aria-label') ?? (labels.join(' ') || at.textContent || '')).trim().replace(/\\s+/g, ' ');
  const marked = at.matches('.choice input, [type=radio], [type=checkbox]') ? [at, at.closest('label'), at.nextElementSibling] : [at];
  const isShown = marked.some((one) => {
    if (!one) return false;
    const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(one);
    return (outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2) || boxShadow !== 'none';
  });
  const { top, bottom } = at.getBoundingClientRect();
  return { name, tag: at.tagName.toLowerCase(), isShown, isInView: bottom > 0 && top < innerHeight };
})()`;

/** Somebody without a mouse. */
export class ByKeyboard {
  constructor(private readonly page: Page) {}

  async focused(): Promise<Focused | null> {
    return this.page.evaluate<Focused | null>(FOCUSED);
  }

  /** By Tab, with what has the focus to be seen at each stop, until it is that. Fails where the page ends before. */
  async tabTo(name: string | RegExp): Promise<void> {
    await isDrawn(this.page);
    const passed: string[] = [];
    for (let times = 0; times < MOST_TABS; times++) {
      await this.page.keyboard.press('Tab');
      const at = await this.focused();
      if (at === null) continue;
      expect(at).toEqual({ ...at, isShown: true, isInView: true });
      if (typeof name === 'string' ? at.name === name : name.test(at.name)) return;
      passed.push(at.name);
    }
    throw new Error(
      `Tab does not lead to ${name}; it leads to: ${[...new Set(passed)].join(' | ')}`,
    );
  }

  async press(name: string | RegExp, key: 'Enter' | 'Space' = 'Enter'): Promise<void> {
    await this.tabTo(name);
    await this.page.keyboard.press(key);
  }

  async type(label: string | RegExp, text: string): Promise<void> {
    await this.tabTo(label);
    await this.page.keyboard.type(text);
  }

  /** Where the focus landed by itself, soon after something was done. */
  async landsOn(name: string | RegExp): Promise<void> {
    const isThat = (at: Focused | null) =>
      at !== null && (typeof name === 'string' ? at.name === name : name.test(at.name));
    // The content policy lets nothing be waited for within the page.
    for (let times = 0; times < MOST_LOOKS; times++) {
      const at = await this.focused();
      if (isThat(at)) {
        expect(at?.isInView).toBe(true);
        return;
      }
      await this.page.waitForTimeout(50);
    }
    throw new Error(
      `The focus should land on ${String(name)}; it is on ${JSON.stringify(await this.focused())}`,
    );
  }
}
