import { clockSentences } from '../clock-sentences.js';

export const HI_CLOCK = clockSentences({
  language: 'hi',
  locale: 'hi',
  troubleClass: {
    'whole-site': 'पूरी जगह में आवाज़ नहीं',
    'whole-trunk': 'एक पूरी लाइन में आवाज़ नहीं',
    'several-rooms': 'कई कमरों में आवाज़ नहीं',
    'one-room': 'एक कमरे में आवाज़ नहीं',
  },
  paused: {
    'no-access': 'अंदर जाना संभव नहीं',
    'waiting-for-client': 'ग्राहक का इंतज़ार',
    'part-on-order': 'पुर्ज़ा मँगाया गया है',
    closed: 'टिकट बंद था',
  },
  promised: { response: 'कोई मौके पर', restore: 'फिर से चालू' },
  units: { hours: 'घं', minutes: 'मि', seconds: 'से' },
  fromTo: (from, to) => `${from} से ${to} तक`,
  left: (duration) => `${duration} बाक़ी`,
  usedUp: 'पूरा हुआ',
  noHours: 'तय घंटे नहीं',
  closed: (why) => `बंद (${why})`,
  closedWhy: {
    'public-holiday': 'सार्वजनिक छुट्टी',
    'closed-day': 'बंद दिन',
    calendar: 'छुट्टियाँ',
  },
  pausedFrom: (from, until) => (until === null ? `${from} से रुका हुआ` : `${from} से ${until} तक रुका`),
  further: (lines) => `${lines} और पंक्तियाँ`,
  within: (what, duration) => `${duration} के भीतर ${what}`,
  reported: (when) => `सूचना ${when}`,
  standsStill: 'घड़ी रुकी हुई है',
  neverOpen: 'घंटे काफ़ी देर तक नहीं खुलते',
});
