import { expect } from '@jest/globals';
import type { Page } from 'playwright-core';

import { isDrawn } from './open-browser.js';

/** So many stops on a page at most until what is looked for. */
const MOST_STOPS = 250;

/** A minute of them, as the machine may be busy. */
const MOST_LOOKS = 1200;

interface Stop {
  name: string;
  kind: string;
  /** Whether somebody sees where they are: a mark around it, on the screen. */
  isMarked: boolean;
  isOnScreen: boolean;
}

/** Somebody at a page without a mouse: what is reached is reached by keys, and every stop on the way is seen. */
export class ByKeys {
  constructor(private readonly page: Page) {}

  /** Presses Tab until something of this name has the focus. */
  async to(name: string | RegExp, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
    await isDrawn(this.page);
    const passed: string[] = [];
    for (let stop = 0; stop < MOST_STOPS; stop += 1) {
      const at = await this.at();
      if (isNamed(at, name)) return;
      await this.page.keyboard.press(key);
      passed.push(await this.look());
    }
    throw new Error(`no stop is called ${String(name)} among ${[...new Set(passed)].join(' | ')}`);
  }

  /** Goes there and presses Enter, as on a link or a button. */
  async press(name: string | RegExp): Promise<void> {
    await this.to(name);
    await this.page.keyboard.press('Enter');
  }

  /** Goes to a field and types in place of what is in it. */
  async type(name: string | RegExp, text: string): Promise<void> {
    await this.to(name);
    const { kind } = await this.at();
    if (kind === 'text' || kind === 'textarea') await this.page.keyboard.press('ControlOrMeta+a');
    await this.page.keyboard.type(text);
  }

  /** Of a group of radio buttons, by arrows. */
  async pick(group: RegExp, name: string | RegExp): Promise<void> {
    await this.to(group);
    for (let stop = 0; stop < MOST_STOPS; stop += 1) {
      if (isNamed(await this.at(), name)) break;
      await this.page.keyboard.press('ArrowDown');
    }
    await this.page.keyboard.press('Space');
  }

  /** Waits until the page put the focus on something of this name, as it does once it shows something else. */
  async lands(name: string | RegExp): Promise<void> {
    for (let look = 0; look < MOST_LOOKS; look += 1) {
      // The page may be leaving for another.
      const stop = await this.at().catch(() => undefined);
      if (stop !== undefined && isNamed(stop, name)) return;
      await this.page.waitForTimeout(50);
    }
    throw new Error(`the focus is on ${JSON.stringify(await this.at())}, not ${String(name)}`);
  }

  /** What has the focus now; every stop is to be seen. */
  private async look(): Promise<string> {
    const stop = await this.at();
    if (stop.kind !== 'body') {
      expect(stop).toEqual({ ...stop, isMarked: true, isOnScreen: true });
    }
    return stop.name;
  }

  private at(): Promise<Stop> {
    return this.page.evaluate<Stop>(FOCUSED);
  }
}

function isNamed({ name }: Stop, asked: string | RegExp): boolean {
  return typeof asked === 'string' ? name === asked : asked.test(name);
}

const FOCUSED = `(() => {
  const one = document.activeElement;
  const text = (node) => (node?.textContent ?? '').replaceAll(/\\s+/g, ' ').trim();
  const label = one.labels?.[0];
  const ownLabel = label && [...label.childNodes]
    .filter((node) => !(node instanceof Element) || !node.contains(one) && !node.matches('.hint, .error'))
    .map(text).join(' ').trim();
  const name = one.getAttribute('aria-label') ?? (ownLabel || text(one));
  // A drawn station is marked by its area, a radio button by what stands beside it.
  const marks = [one, one.nextElementSibling, one.querySelector(':scope .node-area')];
  // A heading that says what is shown now is no stop.
  const isMarked = one.tabIndex < 0 || marks.filter((each) => each !== null).some((each) => {
    const { outlineStyle, outlineWidth, stroke, strokeWidth } = getComputedStyle(each);
    const isOutlined = outlineStyle !== 'none' && parseFloat(outlineWidth) > 0;
    return isOutlined || each.matches('.node-area') && stroke !== 'none' && parseFloat(strokeWidth) > 0;
  });
  const { top, bottom, left, right } = one.getBoundingClientRect();
  const isOnScreen = bottom > 0 && top < innerHeight && right > 0 && left < innerWidth;
  const kind = one instanceof HTMLInputElement ? one.type : one.localName;
  return { name: one === document.body ? '' : name, kind, isMarked, isOnScreen };
})()`;
