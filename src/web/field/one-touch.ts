interface UnderWay {
  /** The newest entry that was drawn when it was touched. */
  newestDrawn: number;
  /** The page shows the same until all is kept, and is left then. */
  isLeft: boolean;
}

/**
 * Of two touches of the same drawing of a page the first: the other comes before what it entered is to be seen. Where the page goes by
 * what is entered, a touch of what it shows since is another one, though what was entered before it is not wholly kept yet.
 */
export class OneTouch {
  private readonly underWay = new Set<UnderWay>();

  /** What ends it; undefined where it is not taken. */
  begin(touched: UnderWay): (() => void) | undefined {
    for (const { newestDrawn, isLeft } of this.underWay)
      if (isLeft || touched.newestDrawn <= newestDrawn) return undefined;
    this.underWay.add(touched);
    return () => void this.underWay.delete(touched);
  }
}
