export const EN_MAP = {
  title: 'Map',
  toMap: 'On the map',
  theDay: 'Today’s plan',
  notPlanned: 'Today is not planned yet: no ways are drawn.',
  nonePlaced: 'No site has coordinates yet. They are entered with the site.',
  drawing: (sites: number, km: string) =>
    `Map of ${sites === 1 ? '1 site' : `${sites} sites`}, north up; the bar is ${km} km long. The same is in the tables below.`,
  north: 'N',
  km: (km: string) => `${km} km`,
  asTable: 'Sites',
  heads: {
    site: 'Site',
    silent: 'Silent now',
    left: 'Time left',
    today: 'Who comes today',
    place: 'Latitude, longitude',
    technician: 'Technician',
    begins: 'The day begins at',
    order: 'Today, in this order',
  },
  nothingSilent: 'nothing silent',
  comes: (technician: string, order: number) => `${technician}, stop ${order}`,
  at: (latitude: string, longitude: string) => `${latitude}, ${longitude}`,
  starts: 'Where days begin',
  unplaced: 'Not on the map',
  unplacedHint: 'Nobody has entered where these sites lie.',
  notOnWay: (technician: string, sites: string) =>
    `Left out of the drawn way of ${technician}, for want of coordinates: ${sites}.`,
  noStart: (technician: string) =>
    `The way of ${technician} is not drawn: nobody has entered where the day begins.`,
  withoutName: (count: number) =>
    count === 1
      ? '1 name has no room on the map: it is in the table.'
      : `${count} names have no room on the map: they are in the table.`,
  legend: {
    silent: 'something is silent there',
    quiet: 'nothing is silent',
    start: 'where somebody’s day begins',
    route: (technician: string) => `today’s way of ${technician}`,
  },
};
