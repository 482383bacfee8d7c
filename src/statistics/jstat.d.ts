/** What is used of jstat (MIT), which comes without types. */
declare module 'jstat' {
  const jstat: {
    /** log Γ(x). */
    gammaln(x: number): number;
    chisquare: {
      cdf(x: number, degreesOfFreedom: number): number;
      inv(probability: number, degreesOfFreedom: number): number;
    };
    normal: { cdf(x: number, mean: number, standardDeviation: number): number };
    gamma: {
      cdf(x: number, shape: number, scale: number): number;
      inv(probability: number, shape: number, scale: number): number;
    };
  };
  export default jstat;
}
