/** The poster's words in the languages that an office may read; the pass itself follows the browser. */
export const POSTER_WORDS = [
  { language: 'en', silent: 'A room is silent?', scan: 'Scan this code and touch the room.' },
  { language: 'es', silent: '¿Un aula en silencio?', scan: 'Escanee este código y toque el aula.' },
  {
    language: 'fr',
    silent: 'Une salle est muette ?',
    scan: 'Scannez ce code et touchez la salle.',
  },
  { language: 'hi', silent: 'कोई कमरा शांत है?', scan: 'यह कोड स्कैन करें और कमरे को छुएँ।' },
] as const;

export const SITE_WORDS = {
  title: 'Sites',
  search: 'Which site?',
  searchHint: 'Any part of its name, address, client or telephone number; all are listed below.',
  none: 'There are no sites yet.',
  add: 'Add a site',
  name: 'Name',
  client: 'Client',
  newClient: 'A client that is not in the list',
  zone: 'Time zone of its hours, such as Europe/Lisbon',
  addButton: 'Add it',
  nothingDrawn:
    'Nothing is drawn yet. Its sheet goes in below: a row for each room, in the order along the cable.',
  drawn: 'How it is built',
  version: (version: number, by: string | null, reason: string | null) =>
    version === 0 ? '' : `Version ${version}, by ${by ?? ''}: ${reason ?? ''}`,
  sheet: 'Its sheet',
  sheetHint:
    'A text (CSV) or a workbook (.xlsx). Needed are the columns trunk and node; nothing is saved before it was checked.',
  file: 'The file',
  check: 'Check it',
  checking: 'Checking…',
  noFile: 'Please choose the sheet’s file.',
  wrong: (count: number) =>
    count === 1
      ? 'One thing is wrong; nothing was saved.'
      : `${count} things are wrong; nothing was saved.`,
  line: 'Line',
  column: 'Column',
  value: 'There it says',
  reason: 'What is wrong',
  fits: (changes: number) =>
    changes === 0 ? 'It fits, and changes nothing.' : `It fits. ${changes} things would change.`,
  why: 'Why it changes',
  save: 'Save it as the new record',
  saved: 'It is saved.',
  notes: 'Not taken as it stands',
  tickets: 'Open tickets',
  noTickets: 'No ticket is open.',
  passes: 'Poster for the office',
  passesHint:
    'Its code opens the page of this site, without an account. A new poster leaves old ones working until they are ended.',
  makePoster: 'Make a poster',
  endPass: 'End this poster',
  made: (day: string) => `Poster of ${day}`,
  ended: 'ended',
  download: 'Download the sheet',
  emergency: 'This system also carries emergency calls.',
  poster: 'The poster',
  posterOnce: 'The code is shown this once: print it now.',
  posterMake: 'Make it',
  firmName: 'The firm’s name, as it stands on the poster',
  phone: 'The telephone number to ring',
  print: 'Print',
  orRing: 'Or ring:',
  back: 'Back to the site',
} as const;

export const FIRM_WORDS = {
  title: 'The firm',
  known: 'How clients know it',
  firmName: 'The firm’s name, on posters and to offices',
  firmPhone: 'The telephone number that offices ring',
  firmSave: 'Save it',
  firmSaved: 'It is saved.',
  people: 'Who can sign in',
  name: 'Name',
  email: 'E-mail',
  role: 'Role',
  invite: 'Invite somebody',
  inviteButton: 'Send the invitation',
  invited: 'The invitation is on its way.',
  lastIn: 'Last here',
  never: 'never yet',
  secondStep: 'Second step',
  yes: 'yes',
  no: 'no',
  endAccount: 'End',
  ended: 'ended',
  outbox: 'Mails',
  outboxHint:
    'What has no mail server to go to waits here; a link in it works as if it had been mailed.',
  noMails: 'No mails.',
  mailSent: (when: string) => `sent ${when}`,
  mailWaits: (when: string) => `of ${when}, waits`,
  mailRefused: (when: string) => `of ${when}, not taken by the mail server`,
  textGone: 'What it said is not kept once it is sent.',
  notices: 'Who is told of what',
  audit: 'Who did what',
  auditHint: 'The last fifty; all of it is in the file.',
  auditFile: 'Download as CSV',
  notOwner: 'Only an owner sees this.',
  refused: 'refused',
} as const;

export const ROLE_WORDS = {
  owner: 'owner',
  dispatcher: 'dispatcher',
  'contract-manager': 'contract manager',
  technician: 'technician',
  client: 'client',
} as const;
