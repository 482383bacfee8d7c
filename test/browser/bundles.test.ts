import { readFileSync, readdirSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

import { describe, expect, it } from '@jest/globals';

const BUILT = new URL('../../dist/web/', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, BUILT));
const assets = readdirSync(new URL('assets/', BUILT));

/** Everything that is loaded before the page can be used, and what it starts at once besides. */
function firstLoad(page: string, besides: readonly RegExp[] = []): string[] {
  const html = read(page).toString();
  const found = new Set<string>();
  const waiting = [...html.matchAll(/\/assets\/([\w.-]+\.(?:js|css))/g)].map(([, name]) => name!);
  waiting.push(...assets.filter((name) => besides.some((one) => one.test(name))));
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (found.has(name)) continue;
    found.add(name);
    if (!name.endsWith('.js')) continue;
    const text = read(`assets/${name}`).toString();
    const imports = text.matchAll(/(?:from|import)\s*["']\.\/([\w.-]+\.js)["']/g);
    waiting.push(...[...imports].map(([, other]) => other!));
  }
  return [...found];
}

function gzipKilobytes(names: readonly string[]): number {
  const bytes = names.map((name) => gzipSync(read(`assets/${name}`)).length);
  return bytes.reduce((sum, one) => sum + one, 0) / 1000;
}

describe('the pages’ first load, gzipped', () => {
  it('stays within its bounds: office 60 kB, desk 250 kB and field 200 kB with the locator', () => {
    const office = firstLoad('office/pass.html');
    // What it imports once the words are there, and the language that weighs most.
    const place = [/^kit-worker-.*\.js$/, /^desk-place-.*\.js$/];
    const desk = (['en', 'es', 'fr', 'hi'] as const)
      .map((one) => firstLoad('desk/desk.html', [...place, new RegExp(`^words-${one}-.*\\.js$`)]))
      .reduce((most, one) => (gzipKilobytes(one) > gzipKilobytes(most) ? one : most));
    expect(desk.filter((name) => name.startsWith('words-'))).toHaveLength(1);
    expect(desk.some((name) => name.startsWith('desk-place-'))).toBe(true);
    const field = firstLoad('field/field.html', [/^plan-worker-.*\.js$/]);
    // The locator is in what is measured.
    expect(field.some((name) => name.startsWith('plan-worker-'))).toBe(true);
    expect(gzipKilobytes(field)).toBeLessThan(200);
    expect(gzipKilobytes(field)).toBeGreaterThan(70);
    expect(desk.some((name) => name.startsWith('kit-worker-'))).toBe(true);
    expect(office.length).toBeGreaterThan(2);
    expect(gzipKilobytes(office)).toBeLessThan(60);
    expect(gzipKilobytes(desk)).toBeLessThan(250);
    // So that the measure itself is one: the locator alone is most of the desk.
    expect(gzipKilobytes(desk)).toBeGreaterThan(50);
  });
});

describe('what the service worker of /field keeps', () => {
  it('is everything that the page loads', () => {
    const worker = read('field-worker.js').toString();
    const field = firstLoad('field/field.html', [/^plan-worker-.*\.js$/]);
    expect(field.filter((name) => !worker.includes(`"/assets/${name}"`))).toEqual([]);
    expect(worker).not.toContain('FIELD_FILES');
  });
});

describe('the pages’ style sheets', () => {
  it.each(['desk/desk', 'field/field', 'office/pass'])('has what is its own last: %s', (page) => {
    const html = read(`${page}.html`).toString();
    const sheets = [...html.matchAll(/rel="stylesheet"[^>]*\/assets\/([\w-]+)-[\w-]{8}\.css/g)];
    expect(sheets.length).toBeGreaterThan(1);
    expect(sheets.at(-1)![1]).toBe(page.split('/')[1]);
  });
});
