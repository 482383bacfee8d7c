import type { EN_FIRM, EN_ROLES, EN_SITE } from '../en/site.js';

export const ES_SITE: typeof EN_SITE = {
  title: 'Instalaciones',
  search: '¿Qué instalación?',
  searchHint: 'Cualquier parte de su nombre, dirección, cliente o teléfono; abajo están todas.',
  none: 'Todavía no hay instalaciones.',
  add: 'Añadir una instalación',
  name: 'Nombre',
  client: 'Cliente',
  newClient: 'Un cliente que no está en la lista',
  zone: 'Huso horario de sus horas, por ejemplo Europe/Lisbon',
  addButton: 'Añadirla',
  nothingDrawn:
    'Todavía no hay nada dibujado. Su hoja se carga abajo: una fila por aula, en el orden del cable.',
  drawn: 'Cómo está construida',
  version: (version, by, reason) =>
    version === 0 ? '' : `Versión ${version}, de ${by ?? ''}: ${reason ?? ''}`,
  sheet: 'Su hoja',
  sheetHint:
    'Un texto (CSV) o un libro (.xlsx). Hacen falta las columnas trunk y node; nada se guarda sin comprobarlo antes.',
  file: 'El archivo',
  check: 'Comprobarlo',
  checking: 'Comprobando…',
  sheetKept: (name) => `Elegido: ${name}`,
  noFile: 'Elija el archivo de la hoja.',
  wrong: (count) =>
    count === 1
      ? 'Hay una cosa mal; no se guardó nada.'
      : `Hay ${count} cosas mal; no se guardó nada.`,
  line: 'Línea',
  column: 'Columna',
  value: 'Allí dice',
  reason: 'Qué está mal',
  fits: (changes) =>
    changes === 0
      ? 'Encaja y no cambia nada.'
      : changes === 1
        ? 'Encaja. Cambiaría una cosa.'
        : `Encaja. Cambiarían ${changes} cosas.`,
  why: 'Por qué cambia',
  save: 'Guardarlo como registro nuevo',
  saved: 'Está guardado.',
  notes: 'No se tomó tal cual',
  tickets: 'Avisos abiertos',
  noTickets: 'No hay ningún aviso abierto.',
  passes: 'Cartel para la secretaría',
  passesHint:
    'Su código abre la página de esta instalación, sin cuenta. Un cartel nuevo deja los viejos en marcha hasta que se terminan.',
  makePoster: 'Hacer un cartel',
  endPass: 'Terminar este cartel',
  made: (day) => `Cartel del ${day}`,
  ended: 'terminado',
  download: 'Descargar la hoja',
  emergency: 'Este sistema lleva también llamadas de emergencia.',
  poster: 'El cartel',
  posterOnce: 'El código se muestra solo esta vez: imprímalo ahora.',
  posterMake: 'Hacerlo',
  firmName: 'El nombre de la empresa, como está en el cartel',
  phone: 'El teléfono al que llamar',
  print: 'Imprimir',
  orRing: 'O llame al:',
  back: 'Volver a la instalación',
  notMeasured: 'sin medir',
};

export const ES_FIRM: typeof EN_FIRM = {
  title: 'La empresa',
  known: 'Cómo la conocen los clientes',
  firmName: 'El nombre de la empresa, en carteles y para las secretarías',
  firmPhone: 'El teléfono al que llaman las secretarías',
  firmSave: 'Guardarlo',
  firmSaved: 'Está guardado.',
  people: 'Quién puede iniciar sesión',
  name: 'Nombre',
  email: 'Correo electrónico',
  role: 'Papel',
  invite: 'Invitar a alguien',
  inviteButton: 'Enviar la invitación',
  invited: 'La invitación va de camino.',
  lastIn: 'Última vez aquí',
  never: 'nunca todavía',
  secondStep: 'Segundo paso',
  yes: 'sí',
  no: 'no',
  endAccount: 'Terminar',
  ended: 'terminado',
  outbox: 'Correos',
  outboxHint:
    'Aquí espera lo que no tiene servidor de correo al que ir; un enlace de aquí sirve como si se hubiera enviado.',
  noMails: 'Ningún correo.',
  mailSent: (when) => `enviado ${when}`,
  mailWaits: (when) => `de ${when}, espera`,
  mailRefused: (when) => `de ${when}, el servidor de correo no lo aceptó`,
  mailGivenUp: (when) => `de ${when}, el servidor de correo no lo aceptó; ya no se intenta más`,
  textGone: 'Lo que decía no se guarda una vez enviado.',
  notices: 'A quién se avisa de qué',
  audit: 'Quién hizo qué',
  auditHint: 'Los últimos cincuenta; todo está en el archivo.',
  auditFile: 'Descargar como CSV',
  notOwner: 'Esto solo lo ve un titular.',
  refused: 'rechazado',
};

export const ES_ROLES: typeof EN_ROLES = {
  owner: 'titular',
  dispatcher: 'coordinación',
  'contract-manager': 'contratos',
  technician: 'técnico',
  client: 'cliente',
};
