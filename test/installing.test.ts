import { readFileSync } from 'node:fs';

import { describe, expect, it } from '@jest/globals';

/** Of the machine that it is installed on, or set for the container as it is. */
const NOT_ASKED_BY_COMPOSE = ['HOST', 'PORT', 'DATA_DIRECTORY'];

const config = readFileSync('src/config.ts', 'utf8');
const settings = [...new Set(config.match(/\b(?:HOST|PORT|[A-Z]+(?:_[A-Z]+)+)\b/g))].filter(
  (name) => !config.includes(`const ${name} `),
);

describe('what an installation is told', () => {
  it('is written down, every setting of it', () => {
    expect(settings.length).toBeGreaterThan(15);
    const developers = readFileSync('DEVELOPERS.md', 'utf8');
    expect(settings.filter((name) => !developers.includes(`\`${name}\``))).toEqual([]);
  });

  it('reaches the app in the container', () => {
    const compose = readFileSync('docker-compose.yml', 'utf8');
    const handedOn = /environment:\n((?: {6}.*\n)+)/.exec(
      compose.slice(compose.indexOf('app:')),
    )![1]!;
    const missing = settings.filter((name) => !handedOn.includes(`      ${name}:`));
    expect(missing.filter((name) => !NOT_ASKED_BY_COMPOSE.includes(name))).toEqual([]);
  });

  it('is asked for by the service and the README under the names that exist', () => {
    const readme = readFileSync('README.md', 'utf8');
    const installing = readme.slice(readme.indexOf('## Installing for a firm'));
    const named = [...installing.matchAll(/^ {3}([A-Z_]+)=/gm)].map(([, name]) => name!);
    expect(named.length).toBeGreaterThan(5);
    expect(named.filter((name) => !settings.includes(name))).toEqual([]);
  });
});
