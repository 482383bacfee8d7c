import type { DayProblem } from '#app/dispatch/day-problem.js';

/** A public routing instance, its first 25 customers: place (x, y), ready time, due date. Depot first. */
export interface PublishedDay {
  name: string;
  depot: readonly [x: number, y: number, closes: number];
  service: number;
  vehicles: number;
  customers: readonly (readonly [x: number, y: number, ready: number, due: number])[];
  /** The least distance, of one decimal as is usual for these. */
  optimum: number;
}

/**
 * Distances and times of one decimal, cut off, as whole tenths. Loads are left out: our technicians carry none; in these two
 * instances the published routes are within the load in any case.
 */
export function asDayProblem({ depot, service, vehicles, customers }: PublishedDay): DayProblem {
  const points = [...customers, depot].map(([x, y]) => ({ x, y }));
  const home = customers.length;
  return {
    jobs: customers.map(([, , ready, due], place) => ({
      id: String(place + 1),
      place,
      minutes: service * 10,
      windows: [{ from: ready * 10, to: due * 10 }],
      skills: [],
      latePerMinute: 0,
      waitPerMinute: 0,
      undoneCost: 10_000,
      notBy: [],
    })),
    technicians: Array.from({ length: vehicles }, (_, index) => ({
      id: `vehicle ${index + 1}`,
      fromMinute: 0,
      toMinute: depot[2] * 10,
      skills: [],
      startPlace: home,
      endPlace: home,
    })),
    travelMinutes: points.map((a) =>
      points.map((b) => Math.floor(10 * Math.hypot(a.x - b.x, a.y - b.y) + 1e-9)),
    ),
    waitsFrom: 0,
    movedCost: 0,
  };
}

/**
 * M. M. Solomon, Algorithms for the vehicle routing and scheduling problems with time window constraints, Operations Research
 * 35(2), 1987: R101 and C101 (data read in a public repository); the optima for 25 customers, 617.1 with 8 vehicles and
 * 191.3 with 3, from memory of N. Kohl et al., Transportation Science 33(1), 1999.
 */
export const PUBLISHED_DAYS: readonly PublishedDay[] = [
  {
    name: 'R101, 25 customers',
    depot: [35, 35, 230],
    service: 10,
    vehicles: 8,
    optimum: 617.1,
    customers: [
      [41, 49, 161, 171],
      [35, 17, 50, 60],
      [55, 45, 116, 126],
      [55, 20, 149, 159],
      [15, 30, 34, 44],
      [25, 30, 99, 109],
      [20, 50, 81, 91],
      [10, 43, 95, 105],
      [55, 60, 97, 107],
      [30, 60, 124, 134],
      [20, 65, 67, 77],
      [50, 35, 63, 73],
      [30, 25, 159, 169],
      [15, 10, 32, 42],
      [30, 5, 61, 71],
      [10, 20, 75, 85],
      [5, 30, 157, 167],
      [20, 40, 87, 97],
      [15, 60, 76, 86],
      [45, 65, 126, 136],
      [45, 20, 62, 72],
      [45, 10, 97, 107],
      [55, 5, 68, 78],
      [65, 35, 153, 163],
      [65, 20, 172, 182],
    ],
  },
  {
    name: 'C101, 25 customers',
    depot: [40, 50, 1236],
    service: 90,
    vehicles: 3,
    optimum: 191.3,
    customers: [
      [45, 68, 912, 967],
      [45, 70, 825, 870],
      [42, 66, 65, 146],
      [42, 68, 727, 782],
      [42, 65, 15, 67],
      [40, 69, 621, 702],
      [40, 66, 170, 225],
      [38, 68, 255, 324],
      [38, 70, 534, 605],
      [35, 66, 357, 410],
      [35, 69, 448, 505],
      [25, 85, 652, 721],
      [22, 75, 30, 92],
      [22, 85, 567, 620],
      [20, 80, 384, 429],
      [20, 85, 475, 528],
      [18, 75, 99, 148],
      [15, 75, 179, 254],
      [15, 80, 278, 345],
      [30, 50, 10, 73],
      [30, 52, 914, 965],
      [28, 52, 812, 883],
      [28, 55, 732, 777],
      [25, 50, 65, 144],
      [25, 52, 169, 224],
    ],
  },
];
