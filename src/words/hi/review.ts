import { coveredHoursIn } from '../covered-hours.js';
import { minutesIn, moneyIn, spanIn } from '../review-figures.js';
import type { ReviewWords } from '../review-words.js';
import { HI_FORMATS as formats } from './formats.js';

const span = spanIn(formats, { hour: 'घंटे', days: 'दिन' });

const TRENDS = {
  laplace: 'लाप्लास जाँच',
  logSum: 'घात नियम की काई-वर्ग जाँच',
  reverseArrangements: 'उलटे क्रम के जोड़े',
};

export const HI_REVIEW: ReviewWords = {
  language: 'hi',
  formats,
  title: (contract) => `साल का हिसाब: ${contract}`,
  period: (from, last) => `${formats.day(from)} से ${formats.day(last)} तक`,
  coveredHours: coveredHoursIn({
    locale: 'hi',
    and: formats.and,
    roundTheClock: 'ये घंटे चौबीसों घंटे, सातों दिन गिने जाते हैं।',
    on: (hours) => `ये घंटे गिने जाते हैं: ${hours}।`,
    onDay: (day, from, until) => `${day} ${from} से ${until}`,
    onDays: (first, last, from, until) => `${first} से ${last} ${from} से ${until}`,
  }),
  page: (page, pages, asOf) => `${asOf} की स्थिति। पन्ना ${page}, कुल ${pages}।`,
  headings: {
    promisedVisits: 'वादे की विज़िट',
    visits: 'की गई विज़िट',
    promises: 'पहुँचना और चालू करना, वादे के सामने',
    tickets: 'हर टिकट और उसका समय',
    availability: 'अनुबंध के घंटों में उपलब्धता',
    reliability: 'ख़राबी कितनी बार होती है',
    advised: 'आगे की सलाह',
    signatures: 'हस्ताक्षर',
  },
  columns: {
    site: 'जगह',
    slot: 'वादे का समय',
    standing: 'स्थिति',
    madeOn: 'विज़िट का दिन',
    day: 'दिन',
    technician: 'कौन',
    work: 'क्या किया गया',
    minutes: 'मिनट',
    signed: 'हस्ताक्षर',
    promise: 'वादा',
    met: 'निभाया',
    breached: 'नहीं निभाया',
    open: 'चल रहा',
    mean: 'औसत, अनुबंध का समय',
    function: 'काम',
    rooms: 'कमरे',
    roomHours: 'कमरा-घंटे',
    lost: 'गँवाए',
    available: 'उपलब्ध',
  },
  standings: {
    done: 'समय पर हुई',
    'done-late': 'देर से हुई',
    planned: 'तय है',
    due: 'अब होनी है',
    late: 'बाक़ी है',
    missed: 'नहीं हुई',
    'to-come': 'आने वाली',
  },
  functions: {
    lamp: 'बत्ती',
    announcement: 'घोषणाएँ',
    bell: 'घंटी',
    music: 'संगीत',
    'room-call': 'एक कमरे को कॉल',
    talkback: 'कमरे से जवाब',
  },
  promises: { response: 'किसी का पहुँचना', restore: 'फिर से चालू होना' },
  promiseStates: { running: 'चल रहा', paused: 'रुका हुआ', met: 'निभाया', breached: 'नहीं निभाया' },
  ticket: (number, site) => `टिकट ${number}, ${site}`,
  ticketsElsewhere: (count) =>
    formats.plural(count, {
      one: 'इन जगहों का # और टिकट दूसरे अनुबंध का है या किसी का नहीं।',
      other: 'इन जगहों के # और टिकट दूसरे अनुबंध के हैं या किसी के नहीं।',
    }),
  none: 'कुछ नहीं।',
  found: (words) => `मिला: ${words}।`,
  nothingFound: 'कोई ख़राबी नहीं मिली।',
  mended: (what, mending) => `${mending === 'temporary' ? 'फ़िलहाल ' : ''}ठीक किया: ${what}`,
  breachCause: (cause) => `क्यों नहीं: ${cause}`,
  minutes: minutesIn('घंटे', 'मिनट'),
  money: moneyIn('hi'),
  hours: (hours) => formats.figure(hours, 6),
  availabilityNote:
    'कमरे गुणा अनुबंध के घंटे। किसी कमरे में कोई काम तब से गँवाया गिना जाता है जब बताया गया कि वह नहीं चलता या धीमा है, जब तक वह फिर सुनाई न दे या ठीक न हो।',
  record: ({ failures, siteHours, since }) =>
    `सब जगहों के कुल ${span(siteHours)} में ${formats.plural(failures, { one: '# ख़राबी मिली और ठीक हुई', other: '# ख़राबियाँ मिलीं और ठीक हुईं' })}, ${formats.day(since)} से।`,
  mtbf: ({ mtbfHours, lowHours, highHours }, confidence) => {
    const sure = formats.percent(Math.round(100 * confidence));
    if (mtbfHours === null || highHours === null) {
      return `कोई ख़राबी दर्ज नहीं: एक जगह की ख़राबियों के बीच का औसत समय ${sure} भरोसे से ${span(lowHours)} से ज़्यादा है।`;
    }
    return `एक जगह की ख़राबियों के बीच का औसत समय: ${span(mtbfHours)} (${sure} भरोसे से ${span(lowHours)} से ${span(highHours)} तक)।`;
  },
  posterior: ({ medianHours, lowHours, highHours }, from) =>
    `${from === 'firm' ? 'फ़र्म पहले जो जानती थी' : 'ऐसी प्रणालियों का जो पता है'}, उसके साथ: ${span(medianHours)} (${span(lowHours)} से ${span(highHours)} तक)।`,
  growth: (growth, mtbfHours) =>
    `घात नियम से ख़राबियाँ ${growth >= 0 ? 'घट' : 'बढ़'} रही हैं (वृद्धि ${formats.figure(growth, 2)}); दर्ज समय के अंत में एक जगह ${span(mtbfHours)} चलती है।`,
  trend: (name, pRarer) => {
    const towards = pRarer <= 0.5 ? 'घटने' : 'बढ़ने';
    const chance = formats.chance(Math.min(pRarer, 1 - pRarer));
    return `रुझान, ${TRENDS[name]}: ${towards} की ओर; बिना किसी रुझान के इतना मज़बूत संकेत ${chance} बार आता है।`;
  },
  trendWarning: {
    few: 'मामले कम हैं: सिर्फ़ मज़बूत रुझान दिखेगा।',
    'too-few': 'चार से कम ख़राबियों में कोई जाँच रुझान नहीं बता सकती।',
  },
  siteAvailable: (availability, hoursToRestore) =>
    `सब फिर चालू होने तक ${span(hoursToRestore)} लगें, तो एक जगह ${formats.figure(100 * availability, 4)} % समय पूरी चलती है।`,
  advised: ({ chance, chanceRenewed, cost, paysBackYears }) => {
    const chances = `अगले साल ख़राब होने की संभावना ${formats.chance(chance)}, नया करने पर ${formats.chance(chanceRenewed)}`;
    const costs = cost === null ? '' : `; तय विज़िट पर नया करने का ख़र्च ${cost}`;
    const back =
      paysBackYears === null ? '' : `, जो ${formats.figure(paysBackYears, 2)} साल में वसूल होता है`;
    return `${chances}${costs}${back}`;
  },
  unfinished: (number, site, dueOn) =>
    `टिकट ${number}, ${site}: फ़िलहाल ठीक किया${dueOn === null ? '' : `, ${formats.day(dueOn)} तक पक्का ठीक करना है`}।`,
  nothingAdvised: 'कोई जोड़ अपनी तरह के दूसरों से ज़्यादा ख़राब नहीं होता।',
  signedBy: (name, at) => `${name}, ${at}`,
  sheet: {
    columns: { section: 'भाग', site: 'जगह', of: 'किसका', figure: 'अंक', value: 'मान' },
    sections: {
      promisedVisits: 'वादे की विज़िट',
      visits: 'विज़िट',
      tickets: 'टिकट',
      clocks: 'समय',
      parts: 'पुर्ज़े',
      promises: 'वादे',
      availability: 'उपलब्धता',
      reliability: 'भरोसा',
      advised: 'सलाह',
      unfinished: 'फ़िलहाल ठीक',
    },
  },
  toSign: ['ग्राहक की ओर से: नाम, दिन, हस्ताक्षर', 'फ़र्म की ओर से: नाम, दिन, हस्ताक्षर'],
};
