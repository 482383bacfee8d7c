export const EN_CHARTS = {
  hours: (hours: string) => `${hours} h`,
  days: (days: string) => `${days} d`,
  cost: {
    title: 'What each year went for, against its fee',
    year: (year: number) => `year ${year}`,
    said: (parts: string, cost: string, fee: string) => `${parts} = ${cost}, of a fee of ${fee}`,
  },
  time: {
    title: 'Hours by site and year',
    site: 'on site',
    way: 'on the way',
    said: (site: string, way: string) => `${site} h on site, ${way} h on the way`,
  },
  promises: {
    title: 'Covered hours that each ticket took, against what was promised',
    taken: 'took so long',
    promised: 'promised',
    label: (number: number, promise: string) => `Ticket ${number}, ${promise}`,
    said: (taken: string, promised: string, isOpen: boolean) =>
      `${isOpen ? 'so far ' : ''}${taken} h of ${promised} h`,
    left: (count: number) =>
      `${count} more are in the table alone; these took most of what was promised.`,
  },
  availability: {
    title: 'How much of the covered time each function was there',
    there: 'there',
    left: (count: number) => `${count} more are in the table alone; these were there least.`,
  },
  failures: {
    title: 'Failures as they came',
    expected: (count: number, mean: string, least: string, most: string) =>
      `Failures of the year so far: ${count}. By all that is on record ${mean} were to be expected, by its limits from ${least} to ${most}.`,
    legend:
      'The thick line counts failures. The dashed line is what the mean time between failures lets expect, the tinted area what its limits do.',
    legendSteps: 'The thick line counts failures.',
  },
  mtbf: {
    title: 'Days between failures of each site, with limits',
    limits: 'from the lower limit to the upper, the dot is the mean; an arrow: no upper limit',
    said: (mean: string, low: string, high: string | null) =>
      `${mean} d, ${high === null ? `at least ${low} d` : `from ${low} d to ${high} d`}`,
  },
};
