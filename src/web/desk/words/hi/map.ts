import type { DeskWords } from '../words-en.js';

export const HI_MAP: DeskWords['map'] = {
  title: 'नक़्शा',
  toMap: 'नक़्शे पर',
  theDay: 'आज की योजना',
  notPlanned: 'आज की योजना अभी नहीं बनी: रास्ते नहीं बनाए गए।',
  nonePlaced: 'किसी साइट के निर्देशांक अभी नहीं हैं। वे साइट के साथ दर्ज होते हैं।',
  drawing: (sites, km) =>
    `${sites} साइटों का नक़्शा, ऊपर उत्तर; पट्टी ${km} किमी लंबी है। यही नीचे की तालिकाओं में है।`,
  north: 'उ',
  km: (km) => `${km} किमी`,
  asTable: 'साइटें',
  heads: {
    site: 'साइट',
    silent: 'अभी चुप',
    left: 'बचा समय',
    today: 'आज कौन आता है',
    place: 'अक्षांश, देशांतर',
    technician: 'तकनीशियन',
    begins: 'दिन यहाँ से शुरू',
    order: 'आज, इस क्रम में',
  },
  nothingSilent: 'कुछ चुप नहीं',
  comes: (technician, order) => `${technician}, पड़ाव ${order}`,
  at: (latitude, longitude) => `${latitude} और ${longitude}`,
  starts: 'दिन कहाँ से शुरू होते हैं',
  unplaced: 'नक़्शे पर नहीं',
  unplacedHint: 'ये साइटें कहाँ हैं, किसी ने दर्ज नहीं किया।',
  notOnWay: (technician, sites) =>
    `${technician} के बनाए गए रास्ते में निर्देशांक न होने से शामिल नहीं: ${sites}।`,
  noStart: (technician) =>
    `${technician} का रास्ता नहीं बनाया गया: दिन कहाँ शुरू होता है, किसी ने नहीं डाला।`,
  withoutName: (count) => `${count} नामों की नक़्शे पर जगह नहीं: वे तालिका में हैं।`,
  legend: {
    silent: 'वहाँ कुछ चुप है',
    quiet: 'कुछ चुप नहीं है',
    start: 'जहाँ किसी का दिन शुरू होता है',
    route: (technician) => `${technician} का आज का रास्ता`,
  },
};
