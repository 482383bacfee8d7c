import type { DeskWords } from '../words-en.js';

export const ES_CHARTS: DeskWords['charts'] = {
  hours: (hours) => `${hours} h`,
  days: (days) => `${days} días`,
  cost: {
    title: 'En qué se fue cada año, frente a su cuota',
    year: (year) => `año ${year}`,
    said: (parts, cost, fee) => `${parts} = ${cost}, de una cuota de ${fee}`,
  },
  time: {
    title: 'Horas por sitio y año',
    site: 'en el sitio',
    way: 'de camino',
    said: (site, way) => `${site} h en el sitio, ${way} h de camino`,
  },
  promises: {
    title: 'Horas cubiertas que llevó cada aviso, frente a lo prometido',
    taken: 'llevó esto',
    promised: 'prometido',
    label: (number, promise) => `Aviso ${number}, ${promise}`,
    said: (taken, promised, isOpen) => `${isOpen ? 'hasta ahora ' : ''}${taken} h de ${promised} h`,
    left: (count) =>
      `Otros ${count} están solo en la tabla; estos tomaron la mayor parte de lo prometido.`,
  },
  availability: {
    title: 'Cuánto del tiempo cubierto estuvo cada función',
    there: 'estuvo',
    left: (count) =>
      `Otras ${count} están solo en la tabla; estas fueron las que menos estuvieron.`,
  },
  failures: {
    title: 'Los fallos según vinieron',
    expected: (count, mean, least, most) =>
      `Fallos del año hasta ahora: ${count}. Por todo lo registrado cabía esperar ${mean}; por sus límites, de ${least} a ${most}.`,
    legend:
      'La línea gruesa cuenta los fallos. La de trazos es lo que hace esperar el tiempo medio entre fallos; la zona teñida, lo que hacen sus límites.',
    legendSteps: 'La línea gruesa cuenta los fallos.',
  },
  mtbf: {
    title: 'Días entre fallos de cada sitio, con límites',
    limits:
      'del límite inferior al superior, el punto es la media; una flecha: sin límite superior',
    said: (mean, low, high) =>
      `${mean} días, ${high === null ? `al menos ${low}` : `de ${low} a ${high}`}`,
  },
};
