/** What is used of jstat (MIT), which comes without types. */
declare module 'jstat' {
  const jstat: {
    /** log Γ(x). */
    gammaln(x: number): number;
    chisquare: { inv(probability: number, degreesOfFreedom: number): number };
    gamma: {
      cdf(x: number, shape: number, scale: number): number;
      inv(probability: number, shape: number, scale: number): number;
    };
  };
  export default jstat;
}
