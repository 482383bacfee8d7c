import { PAGE_FORMATS } from '../../parts/language.js';
import { asHeadline } from '../desk-words.js';
import { type MapSite, type MapStart, storedPlace } from './map-facts.js';
import { howUrgent, whoComes } from './map-sentences.js';
import { DESK_WORDS, MAP_WORDS } from '../words/words.js';

interface SitesProps {
  /** What the table is called. */
  label: string;
  sites: readonly MapSite[];
  now: Date;
}

/** The sites with all that the map shows of them. */
export function SitesOfMap({ label, sites, now }: SitesProps) {
  const { site, silent, left, today, place } = MAP_WORDS.heads;
  return (
    <div class="scrolls" tabIndex={0} role="region" aria-label={label}>
      <table class="stacks">
        <Heads words={[site, silent, left, today, place]} />
        <tbody>
          {sites.map((one) => (
            <tr key={one.site.id}>
              <th scope="row">
                <a href={`/desk/sites/${one.site.id}`}>{one.site.name}</a>
              </th>
              <td data-head={silent}>
                <SilentThere site={one} />
              </td>
              <td data-head={left}>{howUrgent(one, now) ?? '–'}</td>
              <td data-head={today}>{whoComes(one) || '–'}</td>
              <td data-head={place}>{placeInWords(one.site.latitude, one.site.longitude)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function SilentThere({ site: { tickets } }: { site: MapSite }) {
  if (tickets.length === 0) return <>{MAP_WORDS.nothingSilent}</>;
  return (
    <ul class="plain">
      {tickets.map(({ id, number, likeliest }) => (
        <li key={id}>
          <a href={`/desk/tickets/${number}`}>{number}</a>{' '}
          {asHeadline(likeliest?.words ?? DESK_WORDS.notWorkedOut)}
        </li>
      ))}
    </ul>
  );
}

/** Where whose day begins, and where they go today. */
export function StartsOfMap({ starts }: { starts: readonly MapStart[] }) {
  if (starts.length === 0) return null;
  const { technician, begins, order } = MAP_WORDS.heads;
  return (
    <section>
      <h2>{MAP_WORDS.starts}</h2>
      <div class="scrolls" tabIndex={0} role="region" aria-label={MAP_WORDS.starts}>
        <table class="stacks">
          <Heads words={[technician, begins, order]} />
          <tbody>
            {starts.map(({ technician: name, at, goesTo }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td data-head={begins}>
                  {placeInWords(at?.latitude ?? null, at?.longitude ?? null)}
                </td>
                <td data-head={order}>
                  {goesTo.map(({ site }, i) => `${i + 1}. ${site.name}`).join(', ') || '–'}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** Whom the drawing does not follow the whole day, and why: stops without coordinates, or a beginning without. */
export function LeftOutOfWays({ starts }: { starts: readonly MapStart[] }) {
  const said = starts.flatMap(({ technician, at, goesTo }) => {
    if (goesTo.length === 0) return [];
    if (at === null) return MAP_WORDS.noStart(technician);
    const without = goesTo.filter(
      ({ site }) => storedPlace(site.latitude, site.longitude) === null,
    );
    const names = [...new Set(without.map(({ site }) => site.name))];
    return names.length === 0 ? [] : MAP_WORDS.notOnWay(technician, PAGE_FORMATS.and(names));
  });
  return (
    <>
      {said.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}

function Heads({ words }: { words: readonly string[] }) {
  return (
    <thead>
      <tr>
        {words.map((one) => (
          <th key={one} scope="col">
            {one}
          </th>
        ))}
      </tr>
    </thead>
  );
}

/** To five decimals: a metre. */
function placeInWords(latitude: number | null, longitude: number | null): string {
  const at = storedPlace(latitude, longitude);
  if (at === null) return '–';
  const degrees = (value: number) => `${PAGE_FORMATS.fixed(value, 5)}°`;
  return MAP_WORDS.at(degrees(at.latitude), degrees(at.longitude));
}
