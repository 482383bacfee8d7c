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
