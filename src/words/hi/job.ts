import type { JobWords } from '../job-words.js';
import { HI_FORMATS as formats } from './formats.js';

const MARKS = { works: 'सुनाई दिया', weak: 'धीमा', fails: 'आवाज़ नहीं' };

export const HI_JOB: JobWords = {
  language: 'hi',
  title: (site, on) => `काम की पर्ची: ${site}, ${formats.day(on)}`,
  page: (page, pages, madeAt) => `${madeAt} पर बनी। पन्ना ${page}, कुल ${pages}।`,
  when: (from, until, technician) => {
    const time =
      from === null ? 'दिन में किसी समय' : `${from} से${until === null ? '' : ` ${until} तक`}`;
    return `${time}, ${technician ?? 'अभी किसी का नाम तय नहीं'}`;
  },
  headings: {
    safety: 'शुरू करने से पहले',
    said: 'क्या बताया गया',
    plan: 'क्या करें, एक-एक क़दम',
    checks: 'जिससे सबसे ज़्यादा पता चलता है',
    parts: 'साथ ले जाने के पुर्ज़े',
    lastVisits: 'पहले की विज़िट',
  },
  ticket: (number) => `टिकट ${number}`,
  furtherSaid: (count) =>
    `${formats.plural(count, { one: '# बात और बताई गई, जो', other: '# बातें और बताई गईं, जो' })} केवल टिकट में है।`,
  noPlace: 'जो बताया गया, उसमें विरोध है: फिर पूछें कि किसने क्या सुना।',
  trunk: (trunk) => `लाइन ${trunk}, मुख्य यूनिट से आगे`,
  headEnd: 'मुख्य यूनिट',
  goesOn: (node) => (node === null ? 'आगे जारी' : `${node} से आगे जारी`),
  notDrawn: (nodes) =>
    `${formats.plural(nodes, { one: '# और कमरा या जोड़ यहाँ नहीं बना है', other: '# और कमरे और जोड़ यहाँ नहीं बने हैं' })}; टिकट में सब दिखता है।`,
  node: (name, code, outcome, isLooked) => {
    const said = outcome === null ? '' : `, ${MARKS[outcome]}`;
    const named = name.includes(code) ? name : `${name} (${code})`;
    return `${named}${said}${isLooked ? ': पहले इससे पहले देखें' : ''}`;
  },
  metres: (metres) => `${formats.figure(metres, 4)} मी`,
  part: ({ id, neededChance, isCarried, isInVan }) => {
    const take = isInVan === null ? ', साथ ले जाएँ' : ', गाड़ी में नहीं है: निकलने से पहले रख लें';
    return `${id.replaceAll('-', ' ')}: ज़रूरत की संभावना ${formats.chance(neededChance)}${isInVan === true ? ', गाड़ी में है' : isCarried ? take : ''}`;
  },
  secondTrip: (chance) => `फिर भी कोई पुर्ज़ा कम पड़ने की संभावना: ${formats.chance(chance)}।`,
  further: (numbers) => `इस विज़िट के और टिकट: ${numbers.join(', ')}।`,
  none: 'कुछ नहीं।',
};
