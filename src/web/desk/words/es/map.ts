import type { DeskWords } from '../words-en.js';

export const ES_MAP: DeskWords['map'] = {
  title: 'Mapa',
  toMap: 'En el mapa',
  theDay: 'El plan de hoy',
  notPlanned: 'El día de hoy aún no está planificado: no se dibujan recorridos.',
  nonePlaced: 'Ningún sitio tiene coordenadas todavía. Se ponen en los datos del sitio.',
  drawing: (sites, km) =>
    `Mapa de ${sites === 1 ? '1 sitio' : `${sites} sitios`}, el norte arriba; la barra mide ${km} km. Lo mismo está en las tablas de abajo.`,
  north: 'N',
  km: (km) => `${km} km`,
  asTable: 'Sitios',
  heads: {
    site: 'Sitio',
    silent: 'Mudo ahora',
    left: 'Tiempo que queda',
    today: 'Quién va hoy',
    place: 'Latitud, longitud',
    technician: 'Técnico',
    begins: 'El día empieza en',
    order: 'Hoy, en este orden',
  },
  nothingSilent: 'nada mudo',
  comes: (technician, order) => `${technician}, parada ${order}`,
  at: (latitude, longitude) => `${latitude}; ${longitude}`,
  starts: 'Dónde empiezan los días',
  unplaced: 'Fuera del mapa',
  unplacedHint: 'Nadie ha puesto dónde están estos sitios.',
  notOnWay: (technician, sites) =>
    `Fuera del recorrido dibujado de ${technician}, por falta de coordenadas: ${sites}.`,
  noStart: (technician) =>
    `El recorrido de ${technician} no está dibujado: nadie ha puesto dónde empieza el día.`,
  withoutName: (count) =>
    count === 1
      ? '1 nombre no cabe en el mapa: está en la tabla.'
      : `${count} nombres no caben en el mapa: están en la tabla.`,
  legend: {
    silent: 'algo está mudo allí',
    quiet: 'nada está mudo',
    start: 'donde empieza el día de alguien',
    route: (technician) => `recorrido de hoy de ${technician}`,
  },
};
