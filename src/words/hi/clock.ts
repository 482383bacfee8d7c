import { clockSentences } from '../clock-sentences.js';

export const HI_CLOCK = clockSentences({
  language: 'hi',
  locale: 'hi',
  troubleClass: {
    'whole-site': 'पूरी जगह में आवाज़ नहीं',
    'whole-trunk': 'पूरी लाइन में आवाज़ नहीं',
    'several-rooms': 'कई कमरों में आवाज़ नहीं',
    'one-room': 'एक कमरे में आवाज़ नहीं',
  },
  units: ['घंटे', 'मिनट', 'सेकंड'],
  usedUp: 'समय पूरा',
  left: (duration) => `${duration} बाक़ी`,
  range: (from, to) => `${from} से ${to}`,
  noHours: (days) => `${days}: काम का समय नहीं`,
  closed: (days, why) => `${days}: बंद (${why})`,
  closedBy: { 'public-holiday': 'सार्वजनिक छुट्टी', 'closed-day': 'बंद का दिन', calendar: 'कैलेंडर' },
  pausedFor: {
    'no-access': 'अंदर जाना नहीं हो सका',
    'waiting-for-client': 'ग्राहक का इंतज़ार',
    'part-on-order': 'पुर्ज़ा मँगाया गया है',
    closed: 'टिकट बंद था',
  },
  paused: (from, until, reason) =>
    `${from} से ${until === null ? 'अब तक' : `${until} तक`} रुका हुआ: ${reason}`,
  further: (lines, duration) => `और ${lines} पंक्तियाँ: ${duration}`,
  promised: { response: 'किसी का पहुँचना', restore: 'फिर से चालू होना' },
  within: (what, duration) => `${duration} में ${what}`,
  reported: (at) => `सूचना ${at}`,
  standsStill: 'समय रुका हुआ है',
  neverOpens: 'काम का समय इतनी देर नहीं खुलता',
});
