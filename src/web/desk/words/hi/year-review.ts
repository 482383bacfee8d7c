import type { EN_YEAR_REVIEW } from '../en/year-review.js';

export const HI_YEAR_REVIEW: typeof EN_YEAR_REVIEW = {
  yearOf: (year) => `वर्ष ${year}`,
  asOf: (instant) => `${instant} की स्थिति।`,
  paper: 'सब कुछ, छापने और हस्ताक्षर के लिए (PDF)',
  sheet: 'इसका हर अंक (CSV)',
  captions: {
    promisedVisits: 'वादा की हुई हर विज़िट कैसी है',
    visits: 'जो विज़िट हुईं',
    promises: 'वर्ष के टिकटों में वादे कैसे निभे',
    tickets: 'वर्ष में आए टिकट, क्या मिला और क्या ठीक हुआ',
    availability: 'हर काम के कमरा-घंटे, और कितने गँवाए',
    reliability: 'हर साइट पर ख़राबियों के बीच औसत घंटे, सीमाओं के साथ',
    advised: 'जो पुर्ज़े अपने जैसे दूसरों से अधिक ख़राब होते हैं',
  },
  found: 'क्या मिला',
  mended: 'क्या ठीक हुआ',
  failures: 'ख़राबियाँ',
  mtbfHours: 'ख़राबियों के बीच घंटे',
  lowHours: 'निचली सीमा',
  highHours: 'ऊपरी सीमा',
  noLimit: 'कोई नहीं',
  part: 'क्या',
  chance: 'अगले साल ख़राबी',
  chanceRenewed: 'नया करने पर ख़राबी',
  renewal: 'नया करने की लागत',
  paysBack: 'कितने वर्षों में वसूल',
};
