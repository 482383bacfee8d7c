import type { FunctionName } from '../../plan/functions.js';
import { groupSetting, type GroupSentences, isSiteSetting } from '../head-end-mode.js';
import type { SiteSetting } from '../../locator/index.js';
import type { Words } from '../words.js';
import { HI_ANSWER } from './answer.js';
import { HI_FORMATS as formats } from './formats.js';
import { hiComponent as component, HI_HEAD_END, hiPlace as place } from './places.js';
import { HI_ONE as ONE } from './left-out.js';
import { HI_WALK } from './walk.js';

const TRY: Readonly<Record<FunctionName, (room: string) => string>> = {
  lamp: (room) => `देखें कि ${room} में बत्ती जल रही है या नहीं`,
  announcement: (room) => `घोषणा करें और किसी से कहें कि ${room} में सुने`,
  bell: (room) => `घंटी बजाएँ और किसी से कहें कि ${room} में सुने`,
  music: (room) => `संगीत चलाएँ और किसी से कहें कि ${room} में सुने`,
  'room-call': (room) => `सिर्फ़ ${room} को बुलाएँ और पूछें कि वहाँ सुनाई दिया या नहीं`,
  talkback: (room) => `किसी से कहें कि ${room} से जवाब दे, और सुनें`,
};

const LOOK_AT: Readonly<Record<SiteSetting, string>> = {
  power: 'देखें कि ऑफ़िस का कैबिनेट चालू है और उसकी बत्ती जल रही है या नहीं',
  selector: 'देखें कि ऑफ़िस के कैबिनेट पर सही कमरे चुने हुए हैं या नहीं',
  'bell-source': 'घड़ी का कार्यक्रम देखें: घंटियाँ चालू हैं और आज उसमें सामान्य दिन है या नहीं',
  microphone: 'देखें कि ऑफ़िस का माइक लगा हुआ और चालू है या नहीं',
  'line-input': 'संगीत चलाकर देखें: उसका प्लेयर चालू है और आवाज़ बढ़ी हुई है या नहीं',
  amplifier: 'देखें कि ऑफ़िस के कैबिनेट में आवाज़ वाले यंत्र की बत्ती जल रही है और उसकी आवाज़ बढ़ी हुई है या नहीं',
};

const LOOK_AT_GROUP: GroupSentences = {
  'group-off': (group) => `देखें कि ऑफ़िस के कैबिनेट पर “${group}” चालू है या नहीं`,
  'group-bell-off': (group) => `देखें कि ऑफ़िस के कैबिनेट पर “${group}” की घंटी चालू है या नहीं`,
  'group-announcement-off': (group) => `देखें कि ऑफ़िस के कैबिनेट पर “${group}” की घोषणाएँ चालू हैं या नहीं`,
};

const ASK_GROUP: GroupSentences = {
  'group-off': (group) => `क्या ऑफ़िस के कैबिनेट पर “${group}” चालू है?`,
  'group-bell-off': (group) => `क्या ऑफ़िस के कैबिनेट पर “${group}” की घंटी चालू है?`,
  'group-announcement-off': (group) => `क्या ऑफ़िस के कैबिनेट पर “${group}” की घोषणाएँ चालू हैं?`,
};

export const HI: Words = {
  language: 'hi',
  formats,
  headEnd: HI_HEAD_END,
  unnamed: {
    station: (code) => `यंत्र ${code}`,
    'junction-box': (code) => `जोड़ बक्सा ${code}`,
  },
  place,
  component,
  stretch: ({ trunk, from, to, spans }, nameNode) => {
    const ends = place({ kind: 'span', trunk, from, to }, nameNode);
    return `${ends}, ${formats.plural(spans.length, { one: '# टुकड़ा', other: '# टुकड़े' })}`;
  },
  withChance: (words, chance) => `${words}: ${formats.chance(chance)}`,
  comesAndGoes: (words) => `कभी ठीक, कभी ख़राब: ${words}`,
  joint: ({ place: at, component: part, ohms, probability }, nameNode) => {
    const where =
      part === 'cable' ? `${place(at, nameNode)} की केबल` : component(part, at, nameNode);
    const on = part === 'cable' || at.from === null ? '' : `, लाइन ${at.trunk}`;
    const [median, low, high] = [ohms.median, ohms.low, ohms.high].map((one) =>
      formats.figure(one, 2),
    );
    const size = `लगभग ${median} ओम (${low} से ${high})`;
    return `ख़राब जोड़: ${where}${on}, ${size}: ${formats.chance(probability)}`;
  },
  check: (action, nameNode) => {
    switch (action.kind) {
      case 'function':
        return TRY[action.function](nameNode(action.trunk, action.node));
      case 'volume-knob': {
        const room = nameNode(action.trunk, action.node);
        return `${room} में आवाज़ का बटन बढ़ाएँ और फिर से सुनें: ${ONE[action.function]}`;
      }
      case 'head-end':
        return isSiteSetting(action.setting)
          ? LOOK_AT[action.setting]
          : groupSetting(action.setting, LOOK_AT_GROUP);
      case 'supply-volts':
        return `${nameNode(action.trunk, action.node)} में सप्लाई का वोल्टेज नापें`;
      case 'continuity': {
        const from = action.from === null ? HI_HEAD_END : nameNode(action.trunk, action.from);
        const to = nameNode(action.trunk, action.to);
        return `लाइन ${action.trunk} को अलग करें और ${from} से ${to} तक हर तार की निरंतरता नापें`;
      }
      case 'open-junction': {
        const { component: part, ...span } = action;
        return `खोलकर देखें: ${component(part, { ...span, kind: 'span' }, nameNode)}`;
      }
      case 'isolation': {
        const room = nameNode(action.trunk, action.node);
        return `${room} के आगे का सब कुछ अलग करें: क्या वहाँ यह लौट आता है: ${ONE[action.function]}?`;
      }
    }
  },
  settingQuestion: {
    power: {
      text: 'क्या ऑफ़िस का कैबिनेट चालू है और उसकी बत्ती जल रही है?',
      advice: 'किसी के जाने से पहले उसे चालू करें और फिर से सुनें।',
    },
    amplifier: {
      text: 'क्या ऑफ़िस के कैबिनेट में आवाज़ वाले यंत्र की बत्ती जल रही है और उसकी आवाज़ बढ़ी हुई है?',
      advice: 'किसी के जाने से पहले उसे चालू करें, आवाज़ बढ़ाएँ और फिर से सुनें।',
    },
    selector: {
      text: 'क्या ऑफ़िस के कैबिनेट पर सही कमरे चुने हुए हैं?',
      advice: 'किसी के जाने से पहले कमरे चुनें और फिर से सुनें।',
    },
    'bell-source': {
      text: 'क्या घड़ी के कार्यक्रम में आज सामान्य दिन है, छुट्टी नहीं?',
      advice: 'छुट्टी के दिन घंटी नहीं बजती; किसी के जाने से पहले कार्यक्रम देखें।',
    },
    microphone: {
      text: 'क्या ऑफ़िस का माइक लगा हुआ और चालू है?',
      advice: 'किसी के जाने से पहले उसे लगाएँ, चालू करें और फिर से आज़माएँ।',
    },
    'line-input': {
      text: 'क्या संगीत का प्लेयर चालू है और आवाज़ बढ़ी हुई है?',
      advice: 'किसी के जाने से पहले उसे चालू करें, आवाज़ बढ़ाएँ और फिर से सुनें।',
    },
  },
  setAside: (room, { function: name, isOut }) =>
    isOut
      ? `${room}: रिकॉर्ड के अनुसार यूनिट निकाली हुई या बाईपास है, उसके बारे में कुछ नहीं पूछा जाता`
      : `${room}: रिकॉर्ड के अनुसार यूनिट में यह सुविधा नहीं है (${ONE[name]}), उसके बारे में कुछ नहीं पूछा जाता`,
  groupQuestion: (setting) => ({
    text: groupSetting(setting, ASK_GROUP),
    advice: 'किसी के जाने से पहले चालू करें और फिर से सुनें।',
  }),
  volumeQuestion: (room) => ({
    text: `क्या ${room} में आवाज़ का बटन बढ़ा हुआ है?`,
    advice: `किसी के जाने से पहले ${room} में आवाज़ बढ़ाएँ और फिर से सुनें।`,
  }),
  answer: HI_ANSWER,
  walk: HI_WALK,
  drawing: {
    title: (trunk) => `मुख्य यूनिट, लाइन ${trunk}`,
    marks: {
      heard: 'सुनाई देता है',
      weak: 'धीमा',
      silent: 'चुप',
      'not checked': 'जाँचा नहीं',
      contradicted: 'दो तरह की बात',
    },
    station: 'यंत्र',
    junctionBox: 'जोड़ बक्सा',
    lookHere: 'पहले यहाँ देखें',
    metres: (metres) => `${formats.figure(metres, 6)} मी`,
  },
  said: ({ room, function: name, outcome, saidBy }) => {
    const how = { works: 'ठीक', weak: 'धीमा', fails: 'काम नहीं करता' }[outcome];
    return `${room}: ${ONE[name]}, ${how}, ${saidBy} के अनुसार`;
  },
};
