import type { OfficeWords, PageWords, TicketStateName } from '../office-words.js';
import { HI_FORMATS as formats } from './formats.js';

const SOUND = { fails: 'चुप', works: 'सुनाई दिया', weak: 'धीमा' };

export const HI_PAGES: PageWords = {
  language: 'hi',
  ownName: 'हिन्दी',
  oneMoment: 'एक क्षण…',
  tryAgain: 'फिर कोशिश करें',
  send: 'भेजें',
  sending: 'भेजा जा रहा है…',
  functions: {
    announcement: { tried: 'घोषणा', ...SOUND },
    bell: { tried: 'घंटी', ...SOUND },
    music: { tried: 'संगीत', ...SOUND },
    lamp: { tried: 'यंत्र की बत्ती', fails: 'बुझी', works: 'जल रही', weak: 'धीमी' },
    'room-call': { tried: 'एक कमरे को कॉल', ...SOUND },
    talkback: { tried: 'कमरा ऑफ़िस से बोलता है', ...SOUND },
  },
  unit: (code) => `यंत्र ${code}`,
  line: (trunk) => `लाइन ${trunk}`,
  floor: (floor) => (/^-?\d+$/.test(floor) ? `मंज़िल ${floor}` : floor),
  instant: formats.instant,
  pen: {
    label: 'यहाँ, उँगली या क़लम से (ज़रूरी नहीं)',
    box: (isDrawn) => (isDrawn ? 'यहाँ हाथ से हस्ताक्षर किया गया' : 'अभी कुछ नहीं बना'),
    again: 'फिर से बनाएँ',
  },
  movedMeanwhile: 'इस बीच इसकी स्थिति बदल गई, और यह अब नहीं हो सकता।',
  notReached: 'सेवा तक पहुँचा नहीं जा सका। आपका भरा हुआ कुछ भी खोया नहीं है: थोड़ी देर में फिर कोशिश करें।',
  notReady: 'सेवा में कुछ गड़बड़ हुई। आपका भरा हुआ कुछ भी खोया नहीं है।',
  closedMeanwhile: 'यह इस बीच बंद हो गया। अब क्या हाल है, यह देखने के लिए पेज फिर से खोलें।',
  wentWrong: 'सेवा में कुछ गड़बड़ हुई।',
  nothingHere: 'यहाँ कुछ नहीं है',
  nothingHereWhy: 'हो सकता है पता ग़लत लिखा हो, या जिसके बारे में था वह अब न हो।',
  failedNow: 'अभी यह नहीं हो पाया',
  maybeOld: (reason) => `हो सकता है यह पुराना हो: ${reason}`,
};

const STATES: Readonly<Record<TicketStateName, string>> = {
  reported: 'कंपनी को मिल गया है; आगे क्या हो, वह तय कर रही है।',
  'to-visit': 'कोई आएगा।',
  'at-work': 'कोई इस पर काम कर रहा है।',
  bridged: 'अभी के लिए चलता है; कोई लौटकर पक्का ठीक करेगा।',
  mended: 'ठीक हो गया है; हर कमरे में आज़माना बाक़ी है।',
  closed: 'बंद हो गया है।',
  merged: 'इसे दूसरी शिकायत के साथ जोड़ दिया गया।',
};

const fromOf = (next: { fromTime: string | null }) =>
  next.fromTime === null ? '' : ` ${next.fromTime} बजे से`;

export const HI_OFFICE: OfficeWords = {
  title: (site) => `चुप कमरों की सूचना: ${site}`,
  report: {
    heading: 'चुप कमरों की सूचना दें',
    whatTried: 'आपने क्या आज़माया?',
    whichRooms: 'कौन-से कमरे?',
    rooms: 'कमरे',
    touch: ({ fails, works, weak }) =>
      `कमरे को एक बार छुएँ: ${fails}। दो बार: ${works}। तीन बार: ${weak}। एक बार और: कुछ नहीं कहा। जिन कमरों के बारे में आप जानते हैं कि «${works}», वे भी उतनी ही मदद करते हैं जितनी «${fails}» वाले।`,
    notSaid: 'कुछ नहीं कहा',
    yourName: 'आपका नाम',
    count: ({ fails, works, weak }, words) =>
      [
        `${words.fails}: ${formats.figure(fails, 9)}`,
        `${words.works}: ${formats.figure(works, 9)}`,
        ...(weak > 0 ? [`${words.weak}: ${formats.figure(weak, 9)}`] : []),
      ].join(', '),
    everywhere: 'हर जगह',
    all: (mark) => `सब: ${mark}`,
    clear: 'हटाएँ',
    oddities: {
      legend: 'क्या और कुछ अजीब था?',
      humming: 'भनभनाहट है',
      crackling: 'चटचटाहट है',
      'wrong-time': 'ग़लत समय पर बजा',
    },
    note: 'और कुछ (ज़रूरी नहीं)',
    urgent: 'इसमें देर नहीं हो सकती',
    whyUrgent: 'देर क्यों नहीं हो सकती',
    callBack: 'वापस फ़ोन करने के लिए नंबर (ज़रूरी नहीं)',
    inWords: {
      label: 'कौन-से कमरे, और वहाँ क्या चुप है?',
      hint: 'इस जगह का नक्शा अभी नहीं बना: अपने शब्दों में बताएँ।',
    },
    missing: {
      something: 'कुछ बाक़ी है।',
      tried: 'कृपया बताएँ कि आपने क्या आज़माया।',
      rooms: 'कृपया वे कमरे छुएँ जो चुप थे।',
      name: 'कृपया बताएँ कि आप कौन हैं।',
      whyUrgent: 'कृपया बताएँ कि देर क्यों नहीं हो सकती।',
      inWords: 'कृपया बताएँ कि कौन-से कमरे और वहाँ क्या चुप है।',
    },
    thanks: (numbers) =>
      `धन्यवाद। ${formats.plural(numbers.length, { one: 'आपकी शिकायत का नंबर है', other: 'आपकी शिकायतों के नंबर हैं' })} ${formats.and(numbers.map(String))}।`,
    more: 'और कमरों की सूचना दें',
  },
  ring: (firm) => `या ${firm} को फ़ोन करें:`,
  nextVisit: (next) =>
    next === null
      ? 'अभी कोई दिन तय नहीं है। सेवा कंपनी जैसे ही दिन तय करेगी, वह यहाँ दिखेगा।'
      : `${formats.day(next.on)} को${fromOf(next)} कोई आएगा (${next.kind === 'planned' ? 'तय दौरा' : 'शिकायत पर दौरा'})।`,
  atWork: 'सेवा कंपनी से कोई अभी यहाँ काम कर रहा है।',
  mayChange: 'कहीं और ज़्यादा ज़रूरी काम आ गया तो दिन बदल सकता है। जो तय है, वह यहाँ लिखा रहेगा।',
  ticket: {
    heading: (number) => `शिकायत ${number}`,
    since: (instant) => `${instant} से।`,
    states: STATES,
    open: 'आप क्या देख सकते हैं',
    ofTicket: (number) => `शिकायत ${number} के लिए`,
    openHeading: 'खुली शिकायतें',
    openCount: (count) => `खुली शिकायतें: ${formats.figure(count, 9)}`,
    notWorking: (tried, rooms) => `${tried}, यहाँ काम नहीं करता: ${rooms.join(', ')}`,
    saidToWork: (tried, rooms) =>
      `${tried}, बताया गया कि यहाँ फिर चलता है: ${rooms.join(', ')}। तकनीशियन वहाँ आज़माएगा।`,
  },
  check: {
    heading: 'अभी देखने लायक़',
    why: 'इनमें से हर बात एक दौरा बचा सकती है या छोटा कर सकती है।',
    lookOnly:
      'सिर्फ़ देखें और सुनें। कृपया कुछ न खोलें, कोई प्लग न निकालें, किसी चीज़ पर न चढ़ें, और इसके लिए कक्षा या काम में रुकावट न डालें। जो आसानी से न हो, वह तकनीशियन पर छोड़ दें।',
    suggestion: (words, minutes) =>
      `${words}। ${formats.plural(minutes, { one: 'लगभग # मिनट लगता है', other: 'लगभग # मिनट लगते हैं' })}।`,
    wasItSo: 'क्या शुरू करने से पहले भी ऐसा ही था?',
    andNow: 'और अब?',
    answers: { yes: 'हाँ', no: 'नहीं', unknown: 'पता नहीं' },
    noted: 'धन्यवाद, लिख लिया गया।',
  },
  sign: {
    heading: 'हस्ताक्षर के लिए काम',
    count: (count) => `हस्ताक्षर बाक़ी: ${formats.figure(count, 9)}`,
    visit: (day) => `${formats.day(day)} का दौरा`,
    nothingWritten: 'तकनीशियन ने काम के बारे में कुछ नहीं लिखा।',
    remark: 'टिप्पणी (ज़रूरी नहीं)',
    button: 'अपने नाम से हस्ताक्षर करें',
    signed: (day, name) => `${formats.day(day)} का दौरा: ${name} के नाम से हस्ताक्षर हुए। धन्यवाद।`,
  },
  emergency: {
    label: 'आपात कॉल',
    heading: 'यह प्रणाली आपात कॉल भी पहुँचाती है।',
    text: 'जहाँ कमरे चुप हैं, सुरक्षा के ज़िम्मेदार व्यक्ति को अभी बताएँ, तय किया हुआ विकल्प लगाएँ और समय लिखें।',
  },
  over: {
    replaced: 'यह पोस्टर बदल दिया गया',
    openLink: 'कृपया पोस्टर का लिंक खोलें',
    notNow: 'इस बार काम नहीं हुआ',
    scanAgain:
      'कृपया पोस्टर का कोड फिर से स्कैन करें, या उसका लिंक खोलें। एक घंटे तक पेज इस्तेमाल न हो तो सत्र ख़त्म हो जाता है।',
  },
};
