/** Of forms for what the firm keeps. */
export const EN_CORRECTION = {
  save: 'Save',
  saving: 'Saving…',
  saved: 'It is saved.',
  drop: 'Forget what I typed',
  meanwhile: 'Somebody else changed this meanwhile. What you did not touch is now as they left it.',
  both: (fields: string) => `Both of you changed: ${fields}. It stands as you typed it.`,
  saveAgain: 'Nothing is saved yet: look it through and save again.',
};

export const EN_PRICES = {
  title: 'The firm’s prices',
  hint: 'What contracts cost, and should cost, is reckoned with what the firm itself pays; it is not what clients are charged.',
  notKeeper: 'Owners and contract managers see the prices.',
  nothing: 'No prices are entered yet: until they are, costs are not reckoned.',
  of: {
    currency: 'Currency',
    hour: 'An hour on site',
    travelHour: 'An hour on the road',
    parts: 'Parts',
  },
  currencyHint:
    'Three letters, such as EUR. Contracts in another currency are reckoned without costs.',
  partsHint: 'Named as they are written down when something is mended; capitals do not matter.',
  part: (nth: number) => `Part ${nth}`,
  partName: 'Name',
  partPrice: 'Price of one',
  add: 'Add a part',
  remove: 'Take it off',
  amount: 'must be an amount, such as 52.50',
};
