import type { DeskWords } from '../words-en.js';

export const HI_CHARTS: DeskWords['charts'] = {
  hours: (hours) => `${hours} घं`,
  days: (days) => `${days} दिन`,
  cost: {
    title: 'हर साल किस पर ख़र्च हुआ, उसके शुल्क के सामने',
    year: (year) => `साल ${year}`,
    said: (parts, cost, fee) => `${parts} = ${cost}, शुल्क ${fee} में से`,
  },
  time: {
    title: 'साइट और साल के हिसाब से घंटे',
    site: 'साइट पर',
    way: 'रास्ते में',
    said: (site, way) => `${site} घं साइट पर, ${way} घं रास्ते में`,
  },
  promises: {
    title: 'हर टिकट ने कितने तय घंटे लिए, वादे के सामने',
    taken: 'इतना लगा',
    promised: 'वादा',
    label: (number, promise) => `टिकट ${number}, ${promise}`,
    said: (taken, promised, isOpen) => `${isOpen ? 'अब तक ' : ''}${promised} घं में से ${taken} घं`,
    left: (count) => `${count} और केवल तालिका में हैं; इन्होंने वादे का सबसे बड़ा हिस्सा लिया।`,
  },
  availability: {
    title: 'तय समय का कितना हिस्सा हर सुविधा चालू थी',
    there: 'चालू थी',
    left: (count) => `${count} और केवल तालिका में हैं; ये सबसे कम चालू थीं।`,
  },
  failures: {
    title: 'ख़राबियाँ, जैसे आईं',
    expected: (count, mean, least, most) =>
      `साल की अब तक की ख़राबियाँ: ${count}। पूरे अभिलेख से ${mean} अपेक्षित थीं, उसकी सीमाओं से ${least} से ${most}।`,
    legend:
      'मोटी रेखा ख़राबियाँ गिनती है। टूटी रेखा वह है जो ख़राबियों के बीच के औसत समय से अपेक्षित है, रंगा भाग वह जो उसकी सीमाओं से।',
    legendSteps: 'मोटी रेखा ख़राबियाँ गिनती है।',
  },
  mtbf: {
    title: 'हर साइट की ख़राबियों के बीच के दिन, सीमाओं के साथ',
    limits: 'निचली सीमा से ऊपरी तक, बिंदु औसत है; तीर: ऊपरी सीमा नहीं',
    said: (mean, low, high) =>
      `${mean} दिन, ${high === null ? `कम से कम ${low}` : `${low} से ${high}`}`,
  },
};
