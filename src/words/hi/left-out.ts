import type { FunctionName } from '../../plan/functions.js';
import { type FurtherLeftOut, leftOutWords, type PlainLeftOut } from '../left-out-words.js';

/** As one speaks of a function by itself. */
export const HI_ONE: Readonly<Record<FunctionName, string>> = {
  lamp: 'बत्ती',
  announcement: 'घोषणा',
  bell: 'घंटी',
  music: 'संगीत',
  'room-call': 'कमरे की कॉल',
  talkback: 'कमरे से जवाब',
};

const PLAIN: Readonly<Record<PlainLeftOut, string>> = {
  withdrawn: 'वापस ले लिया गया',
  'before-closing': 'शिकायत बंद होने से पहले का है',
  'before-mending': 'मरम्मत से पहले का है',
  'after-mending': 'मरम्मत के बाद का है, जिसके बाद कुछ भी ख़राब नहीं बताया गया',
  'said-again': 'उसी व्यक्ति ने बाद में फिर बताया',
  'looked-again': 'उसी व्यक्ति ने बाद में फिर देखा',
  'read-again': 'उसी व्यक्ति ने बाद में फिर नापा',
  'no-such-place': 'ऐसी जगह का है जो इस शिकायत के नक़्शे में नहीं है',
  'unit-out': 'ऐसी यूनिट का है जो हटाई या जोड़कर छोड़ी गई है',
  'no-such-group': 'ऐसे समूह का है जो इस शिकायत के नक़्शे में नहीं है, या जिसके साथ बहुत सारे और हैं',
};

function further(why: FurtherLeftOut): string {
  switch (why.kind) {
    case 'no-such-node':
      return `${why.node} के बारे में है, जो इस शिकायत के नक़्शे में नहीं है`;
    case 'no-such-disconnection':
      return `${why.node} के आगे अलग किया गया था, जो इस शिकायत के नक़्शे में नहीं है`;
    case 'room-out':
      return `${why.room}: रिकॉर्ड के अनुसार यूनिट हटाई या जोड़कर छोड़ी गई है`;
    case 'never-fitted':
      return `${why.room}: रिकॉर्ड के अनुसार यूनिट में यह सुविधा नहीं है (${HI_ONE[why.function]})`;
    case 'other-disconnections':
      return `लाइन ${why.trunk} जहाँ पिछली ${why.most} बार अलग की गई, उनमें से नहीं है; केवल वे गिने जाते हैं`;
    case 'older':
      return `पिछले ${why.most} से पुराना है; केवल वे गिने जाते हैं`;
    case 'not-on-record':
      return `मुख्य यूनिट के बारे में जो रिकॉर्ड में नहीं है, वह चाहिए: ${why.missing.join(', ')}`;
    case 'refused':
      return `काम में नहीं लिया जा सकता: ${why.reason}`;
  }
}

export const HI_LEFT_OUT = leftOutWords(PLAIN, further);
