import type { EN_CORRECTION, EN_PRICES } from '../en/prices.js';

export const ES_CORRECTION: typeof EN_CORRECTION = {
  save: 'Guardar',
  saving: 'Guardando…',
  saved: 'Está guardado.',
  drop: 'Olvidar lo que escribí',
  meanwhile: 'Otra persona cambió esto entretanto. Lo que usted no tocó está ahora como lo dejó.',
  both: (fields) => `Cambiaron los dos: ${fields}. Queda como usted lo escribió.`,
  saveAgain: 'Todavía no se guardó nada: repáselo y vuelva a guardar.',
};

export const ES_PRICES: typeof EN_PRICES = {
  title: 'Los precios de la empresa',
  hint: 'Con lo que paga la propia empresa se calcula lo que cuestan y deberían costar los contratos; no es lo que se cobra a los clientes.',
  notKeeper: 'Los precios los ven propietarios y responsables de contratos.',
  nothing: 'Todavía no hay precios: hasta que los haya no se calculan costes.',
  of: {
    currency: 'Moneda',
    hour: 'Una hora en la instalación',
    travelHour: 'Una hora de camino',
    parts: 'Piezas',
  },
  currencyHint: 'Tres letras, como EUR. Los contratos en otra moneda se calculan sin costes.',
  partsHint: 'Con el nombre con que se anotan al reparar; las mayúsculas no importan.',
  part: (nth) => `Pieza ${nth}`,
  partName: 'Nombre',
  partPrice: 'Precio de una',
  add: 'Añadir una pieza',
  remove: 'Quitarla',
  amount: 'debe ser un importe, como 52,50',
};
