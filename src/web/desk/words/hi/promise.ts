import type { EN_PROMISE } from '../en/promise.js';

export const HI_PROMISE: typeof EN_PROMISE = {
  heading: 'क्या वादा था',
  none: {
    merged: 'इसकी सूचनाएँ अब दूसरे टिकट में हैं, और वादा भी।',
    'no-contract': 'सूचना के समय कोई अनुबंध लागू नहीं था: कोई घड़ी नहीं चलती।',
    'nothing-promised': 'इतनी दूर तक की ख़राबी के लिए अनुबंध में समय का वादा नहीं है।',
  },
  recorded: (reported, recorded) =>
    `सूचना ${reported} की है, लिखी गई ${recorded} को: घड़ी पहले समय से चलती है।`,
  saidSo: (reason, computed) => `किसी ने ऐसा कहा: ${reason}। जो बताया और पाया गया उससे: ${computed}।`,
  stopped: (since, reason, evidence) => `घड़ी ${since} से रुकी है: ${reason} (${evidence})।`,
  wasStopped: (from, until, reason, evidence) =>
    `घड़ी ${from} से ${until} तक रुकी रही: ${reason} (${evidence})।`,
  shownBy: (evidence, name) => `${evidence}; ${name} ने बताया`,
  due: (at) => `${at} तक;`,
  dueNever: 'रुकी रहने तक कोई समय-सीमा नहीं;',
  done: (due, at) => `${due} ${at} को हुआ;`,
  pause: 'घड़ी रोकें',
  pauseWhy: 'क्यों रुकती है',
  evidence: 'यह किससे दिखता है, जैसे किस नंबर पर कौन नहीं मिला',
  noReason: 'कृपया बताएँ कि क्यों रुकती है।',
  noEvidence: 'कृपया बताएँ कि यह किससे दिखता है: ग्राहक इसे पढ़ेगा।',
  resume: 'घड़ी चलाएँ',
  classify: 'बताएँ कि ख़राबी कहाँ तक है',
  asComputed: (trouble) => `जो बताया और पाया गया उससे: ${trouble}`,
  noWhy: 'कृपया बताएँ कि क्यों।',
  tellCause: 'बताएँ कि वादा क्यों नहीं निभा',
  which: 'कौन-सा वादा',
};
