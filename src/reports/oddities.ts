/** What somebody may hear besides silence and faintness: said in words, for the model knows nothing of it. */
export const ODDITIES = ['humming', 'crackling', 'wrong-time'] as const;

export type Oddity = (typeof ODDITIES)[number];
