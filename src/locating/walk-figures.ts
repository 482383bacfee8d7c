/** Minutes and paces of a technician on site: invented starting values, to be replaced by a firm's own record. */
export const WALK_FIGURES = {
  /** With tools and a ladder, on corridors about as long as the cable. */
  pace: { metresPerMinute: 50, minutesPerFloor: 1.5 },
  /** To be let into a room, or to get at a junction box above a ceiling. */
  accessMinutes: { 'head-end': 0.5, station: 1, 'junction-box': 3 },
  lookMinutes: 0.5,
  listenMinutes: 1.5,
  measureMinutes: 4,
  disconnectMinutes: 8,
  open: {
    'head-end': { openMinutes: 10, mendMinutes: 30 },
    port: { openMinutes: 3, mendMinutes: 5 },
    'junction-out': { openMinutes: 4, mendMinutes: 10 },
    'junction-in': { openMinutes: 4, mendMinutes: 10 },
    cable: { openMinutes: 5, mendMinutes: 30 },
    station: { openMinutes: 4, mendMinutes: 10 },
  },
  /** Of cable followed along ceilings and ducts, beside the walking. */
  cableMetresPerMinute: 4,
  /** Fetching and carrying a part. */
  carryMinutes: { small: 0.5, cable: 5, station: 3, headEnd: 10 },
  /** What going away for a part and coming back costs. */
  secondTripMinutes: 120,
} as const;
