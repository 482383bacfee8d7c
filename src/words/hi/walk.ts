import type { NameNode, WalkWords } from '../words.js';
import { hiComponent as component, HI_HEAD_END } from './places.js';

const end = (trunk: string, node: string | null, nameNode: NameNode) =>
  node === null ? HI_HEAD_END : nameNode(trunk, node);

export const HI_WALK: WalkWords = {
  tryFunction: {
    lamp: (room) => `${room} में बत्ती देखें`,
    announcement: (room) => `${room} में घोषणा सुनें`,
    bell: (room) => `${room} में घंटी सुनें`,
    music: (room) => `${room} में संगीत सुनें`,
    'room-call': (room) => `${room} को कॉल करवाएँ`,
    talkback: (room) => `${room} से जवाब दें`,
  },
  lampSeen: ['जल रही है', 'धीमी है', 'बुझी है'],
  heard: ['सुनाई देता है', 'धीमा सुनाई देता है', 'सुनाई नहीं देता'],
  measureOutput: (trunk) => `मुख्य यूनिट पर लाइन ${trunk} का आउटपुट नापें`,
  measureArrival: (room) => `${room} में जो पहुँचता है, उसे नापें`,
  allThere: 'सब कुछ है',
  somethingMissing: 'कुछ नहीं पहुँचता',
  disconnect: (room) => `${room} के आगे का सब कुछ अलग करें और देखें कि लाइन लौटती है या नहीं`,
  liftOff: (room) => `${room} में आने वाली केबल अलग करें और देखें कि लाइन लौटती है या नहीं`,
  comesBack: 'लौट आती है',
  doesNotComeBack: 'नहीं लौटती',
  open: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'मुख्य यूनिट खोलें';
      case 'port':
        return `लाइन ${place.trunk} का फ़्यूज़ और आउटपुट के टर्मिनल देखें`;
      case 'station':
        return `${nameNode(place.trunk, place.node)} का यंत्र जाँचें`;
      case 'span': {
        if (part !== 'cable') return `खोलें: ${component(part, place, nameNode)}`;
        const to = nameNode(place.trunk, place.to);
        return `${end(place.trunk, place.from, nameNode)} से ${to} तक केबल देखते चलें`;
      }
    }
  },
  remake: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'मुख्य यूनिट को फिर से, एक-एक हिस्सा जाँचें';
      case 'port':
        return `लाइन ${place.trunk} का फ़्यूज़ और आउटपुट के टर्मिनल नए करें`;
      case 'station':
        return `${nameNode(place.trunk, place.node)} का यंत्र बदलें`;
      case 'span': {
        if (part !== 'cable') return `नए सिरे से बनाएँ: ${component(part, place, nameNode)}`;
        const to = nameNode(place.trunk, place.to);
        return `${end(place.trunk, place.from, nameNode)} से ${to} तक परख के लिए केबल डालें`;
      }
    }
  },
  allWorks: 'सब कुछ चलता है',
  stillFails: 'कुछ अब भी नहीं चलता',
  atFault: 'ख़राब',
  sound: 'ठीक',
  soundAnd: (seen) => `ठीक, और ${seen}`,
  from: (where, minutes) => `${where} से, सब कुछ फिर चलने तक लगभग ${minutes} मिनट।`,
  nothingSuspect: 'किसी चीज़ पर शक नहीं है।',
  step: (label, minutes) => `${label} (${minutes} मिनट)।`,
  ending: (seen, chance, next) => `अगर ${seen} (${chance}): ${next}`,
  otherwise: (chance, next) => `नहीं तो (${chance}): ${next}`,
  mendIt: 'ख़राब, तो ठीक करें',
  mendItAndIf: 'ख़राब, तो ठीक करें; फिर भी कुछ न चले',
  everythingWorks: 'सब कुछ चलता है।',
  askAgain: 'यहाँ फिर से पूछें।',
  cautions: [
    'मुख्य यूनिट या कोई जोड़ खोलने से पहले बिजली अलग करें और जाँच लें कि वोल्टेज नहीं है।',
    'लाउडस्पीकर की लाइनों में ख़तरनाक वोल्टेज हो सकता है; मेन बिजली के हिस्से सिर्फ़ लाइसेंस वाले लोगों के लिए हैं।',
    'सीढ़ी पर और ऊँचाई पर काम करते समय सावधान रहें।',
    'कमरे इस्तेमाल में हैं और बच्चे हो सकते हैं: किसी के साथ जाएँ, समय तय करें।',
    'छेद करने से पहले एस्बेस्टस और आग रोकने वाली सील के बारे में जान लें।',
    'स्थानीय नियम और इस जगह के अपने नियम पहले आते हैं। यह योजना सलाह देती है; फ़ैसला वहाँ मौजूद व्यक्ति करता है।',
  ],
  emergencyCaution:
    'यह प्रणाली निकासी या आपात कॉल के काम आती है: ज़िम्मेदार व्यक्ति को बताएँ, तय किया हुआ विकल्प लगाएँ और बंद रहने का समय लिखें।',
};
