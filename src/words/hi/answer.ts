import type { FunctionName } from '../../plan/functions.js';
import type { StationMode } from '../../plan/modes.js';
import type { AnswerWords, OneSaid, ToldCause } from '../answer-words.js';
import { namedGroup } from '../head-end-mode.js';
import { HI_FORMATS as formats } from './formats.js';
import { hiPlace as place } from './places.js';
import { HI_LEFT_OUT } from './left-out.js';

const FUNCTIONS: Readonly<Record<FunctionName, string>> = {
  lamp: 'बत्ती',
  announcement: 'घोषणाएँ',
  bell: 'घंटी',
  music: 'संगीत',
  'room-call': 'एक कमरे की कॉल',
  talkback: 'कमरे से जवाब',
};

const HEAD_END: Readonly<Record<string, string>> = {
  power: 'मुख्य यूनिट की बिजली',
  amplifier: 'मुख्य यूनिट का एम्प्लीफ़ायर',
  receiver: 'मुख्य यूनिट में जवाब का रिसीवर',
  selector: 'मुख्य यूनिट का कमरा चुनने वाला हिस्सा',
  'bell-source': 'घड़ी का कार्यक्रम या मुख्य यूनिट में घंटी का स्रोत',
  microphone: 'मुख्य यूनिट का माइक',
  'line-input': 'मुख्य यूनिट में संगीत का इनपुट',
};

const GROUP: Readonly<Record<string, (group: string) => string>> = {
  'group-off': (group) => `मुख्य यूनिट पर समूह “${group}” बंद`,
  'group-bell-off': (group) => `मुख्य यूनिट पर समूह “${group}” की घंटी बंद`,
  'group-announcement-off': (group) => `मुख्य यूनिट पर समूह “${group}” की घोषणाएँ बंद`,
};

const UNIT: Readonly<Record<StationMode, string>> = {
  dead: 'वहाँ का यंत्र बंद पड़ा है',
  speaker: 'वहाँ का स्पीकर',
  'volume-down': 'वहाँ आवाज़ घटी हुई है',
  microphone: 'वहाँ का माइक',
  address: 'वहाँ लगा पता',
  lamp: 'वहाँ की बत्ती',
  'bell-setting': 'सेटिंग में वह घंटी से बाहर है',
  'announcement-setting': 'सेटिंग में वह घोषणाओं से बाहर है',
  'music-setting': 'सेटिंग में वह संगीत से बाहर है',
  'short-supply': 'वहाँ के यंत्र में शॉर्ट',
};

function cause(told: ToldCause, nameNode: Parameters<AnswerWords['cause']>[1]): string {
  switch (told.kind) {
    case 'span':
    case 'port':
      return place(told.place, nameNode);
    case 'comes-and-goes':
      return `कभी ठीक, कभी ख़राब: ${place(told.place, nameNode)}`;
    case 'head-end': {
      const { mode, group } = namedGroup(told.mode);
      return GROUP[mode]?.(group) ?? HEAD_END[mode] ?? `मुख्य यूनिट: ${mode}`;
    }
    case 'short':
      return `लाइन ${told.trunk} पर कहीं शॉर्ट`;
    case 'weak-feed':
      return `लाइन ${told.trunk} पर कहीं ख़राब जोड़`;
    case 'own-unit':
      if (told.node === null) return 'हर कमरे का अपना यंत्र';
      return told.mode === null ? 'कमरे का अपना यंत्र या उसकी सेटिंग' : UNIT[told.mode];
    case 'nothing':
      return 'कुछ ख़राब नहीं';
    case 'rest':
      return 'कुछ और';
  }
}

const HEARD = { works: 'चलता है', weak: 'धीमा है', fails: 'नहीं चलता' };

const saying = ({ saidBy, outcome }: OneSaid) => `${saidBy} के अनुसार ${HEARD[outcome]}`;

export const HI_ANSWER: AnswerWords = {
  functions: FUNCTIONS,
  range: (first, last) => `${first} से ${last} तक`,
  missedIn: (functions, rooms) => `${formats.and(functions)}, यहाँ नहीं: ${formats.and(rooms)}`,
  cause,
  trouble: (missed, causes) =>
    `${missed.join('; ')}: ${causes.map(({ words, percent }) => `${words}, ${formats.percent(percent)}`).join('; ')}`,
  alsoBroken: (where, chance) =>
    `यह भी ख़राब हो सकता है, हालाँकि बताई गई कोई बात इससे नहीं आती: ${where}, ${formats.chance(chance)}`,
  contradiction: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]}: ${formats.and(said.map(saying))}। दोनों सही नहीं हो सकते: वहाँ फिर से पूछें।`,
  saidBoth: (room, name) =>
    `${room}, ${FUNCTIONS[name]}: किसी ने कहा कि चलता है, किसी और ने कहा कि नहीं। दोनों सही नहीं हो सकते: वहाँ फिर से आज़माएँ।`,
  againstTheRest: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]}: ${saying(said)}। यह बाक़ी सब से मेल नहीं खाता: वहाँ फिर से पूछें।`,
  drawing: {
    branch: (rooms, at, chance) =>
      `नक़्शा ग़लत हो सकता है: शायद ${formats.and(rooms)} की शाखा ${at} से निकलती है, ${formats.chance(chance)}`,
    end: (rooms, trunk, chance) =>
      `नक़्शा ग़लत हो सकता है: शायद ${formats.and(rooms)} लाइन ${trunk} के अंत के बाद हैं, ${formats.chance(chance)}`,
    swapped: (rooms, chance) =>
      `नक़्शा ग़लत हो सकता है: शायद ${formats.and(rooms)} के नाम आपस में बदले हुए हैं, ${formats.chance(chance)}`,
    countCables: (at, asDrawn, alternative) =>
      `${at} में केबल गिनें: नक़्शे में ${asDrawn}, ऐसे ग़लत हो तो ${alternative}`,
    compareNames: (rooms) => `${formats.and(rooms)} के नाम दरवाज़ों पर लिखे नामों से मिलाएँ`,
  },
  leftOut: HI_LEFT_OUT,
  halve: (room, trunk) =>
    `${room} के आगे का सब कुछ अलग करें: लाइन ${trunk} लौट आए तो शॉर्ट आगे है, नहीं तो पीछे; फिर से आधा करें`,
  first: {
    leftOut: (why) =>
      `जो पता है उसके अनुसार कुछ करना नहीं है। जो बताया गया उसमें से यह नहीं गिना जाता: ${why}।`,
    byOffice: (check, minutes) =>
      `पहले: ${check}। इसके लिए किसी को जाना नहीं पड़ता, ${formats.plural(minutes, { one: 'लगभग # मिनट लगता है', other: 'लगभग # मिनट लगते हैं' })}, और इतने में यही सबसे ज़्यादा बताता है।`,
    atDrawing: (look) =>
      `पहले: ${look}। जो बताया गया वह नक़्शे से मेल नहीं खाता, और इससे बात साफ़ हो जाती है।`,
    drawnWrong: (rooms) =>
      `पहले: ${formats.and(rooms)} का रिकॉर्ड ठीक करवाएँ। किसी ने देखा है, और यह नक़्शे जैसा नहीं है।`,
    goTo: (where, chance) =>
      `पहले: यहाँ जाकर देखें: ${where}। ${formats.chance(chance)} संभावना है कि बताई गई बात इसी से है।`,
    onSite: (check) =>
      `पहले, वहाँ पहुँचकर: ${check}। कोई एक जगह साफ़ आगे नहीं है, और यही सबसे ज़्यादा बताता है।`,
    nothing: 'ऐसा कुछ नहीं बताया गया जो न चलता हो।',
  },
};
