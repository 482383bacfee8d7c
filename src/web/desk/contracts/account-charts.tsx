import { PAGE_FORMATS } from '../../parts/language.js';
import type { ReadContractAccount } from '../../parts/wire.js';
import { asHeadline } from '../desk-words.js';
import { BarChart } from './bar-chart.js';
import { costParts } from './chart-facts.js';
import { major, money } from './money.js';
import { CHART_WORDS, CONTRACT_WORDS } from '../words/words.js';

interface ChartProps {
  account: ReadContractAccount;
}

/** What each year went for, against its fee; the table of years has the numbers. */
export function CostChart({ account: { years, currency } }: ChartProps) {
  const words = CONTRACT_WORDS;
  const priced = years.flatMap((year) => {
    const parts = costParts(year);
    return parts === null ? [] : [{ ...year, parts }];
  });
  if (priced.length === 0) return null;
  const inWords = (minor: number) => money(minor, currency);
  return (
    <BarChart
      title={CHART_WORDS.cost.title}
      legend={[words.labour, words.ways, words.parts]}
      markWords={words.feeOfYear}
      tick={(value) => PAGE_FORMATS.figure(value, 3)}
      bars={priced.map(({ year, feeMinor, parts }) => ({
        key: String(year),
        label: asHeadline(CHART_WORDS.cost.year(year)),
        said: CHART_WORDS.cost.said(
          parts.map(inWords).join(' + '),
          inWords(parts.reduce((sum, one) => sum + one, 0)),
          inWords(feeMinor),
        ),
        parts: parts.map((minor) => major(minor, currency)),
        mark: major(feeMinor, currency),
      }))}
    />
  );
}

interface HoursProps extends ChartProps {
  nameOf: (siteId: string) => string;
}

/** Hours on site and on the way, by site and year. */
export function HoursChart({ account: { lines }, nameOf }: HoursProps) {
  const worked = lines.filter((one) => one.minutesOnSite + one.travelMinutes > 0);
  if (worked.length === 0) return null;
  const hours = (minutes: number) => PAGE_FORMATS.figure(minutes / 60, 3);
  const { title, site, way, said } = CHART_WORDS.time;
  return (
    <BarChart
      title={title}
      legend={[site, way]}
      tick={(value) => CHART_WORDS.hours(PAGE_FORMATS.figure(value, 3))}
      bars={worked.map(({ siteId, year, minutesOnSite, travelMinutes }) => ({
        key: `${siteId} ${year}`,
        label: `${nameOf(siteId)}, ${CHART_WORDS.cost.year(year)}`,
        said: said(hours(minutesOnSite), hours(travelMinutes)),
        parts: [minutesOnSite / 60, travelMinutes / 60],
      }))}
    />
  );
}
