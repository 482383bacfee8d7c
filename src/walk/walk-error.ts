/** What the walk throws: the field (a path such as `checks/3/minutes`) and why. */
export class WalkError extends Error {
  constructor(
    readonly field: string,
    readonly reason: string,
  ) {
    super(`${field}: ${reason}`);
    this.name = 'WalkError';
  }
}
