import { Injectable } from '@nestjs/common';
import { Counter, Gauge, Histogram, Registry } from 'prom-client';
import { JobService } from '../jobs/job.service.js';
import { PoolReader } from './pool-reader.js';

/** From a read of one row to the location on a large site. */
const SECONDS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5];

/** The routes that work out where the trouble lies. */
const LOCATIONS: readonly (string | undefined)[] = [
  '/api/v1/locate',
  '/api/v1/tickets/:ticketId/location',
  '/api/v1/pass/tickets/:ticketId',
  '/api/v1/pass/tickets/:ticketId/reports',
  '/api/v1/pass/tickets/:ticketId/answers',
  '/api/v1/pass/reports',
];

export interface MeasuredRequest {
  method: string;
  /** With its parameters' names; undefined where there is no such route. */
  route: string | undefined;
  status: number;
  seconds: number;
}

/** What this process counts, for Prometheus; every name begins with `lastheard_`. */
@Injectable()
export class MetricsService {
  readonly registry = new Registry();

  private readonly requests = new Histogram({
    name: 'lastheard_request_seconds',
    help: 'How long requests took, by method, route and status.',
    labelNames: ['method', 'route', 'status'],
    buckets: SECONDS,
    registers: [this.registry],
  });

  private readonly locations = new Counter({
    name: 'lastheard_locations_total',
    help: 'Answers with a location that was worked out.',
    registers: [this.registry],
  });

  constructor(pool: PoolReader, jobs: JobService) {
    new Gauge({
      name: 'lastheard_jobs',
      help: 'Jobs of all processes that are to be done, by kind and state, and those that failed for good.',
      labelNames: ['kind', 'state'],
      registers: [this.registry],
      async collect() {
        this.reset();
        for (const { kind, state, count } of await jobs.count()) this.set({ kind, state }, count);
      },
    });
    new Gauge({
      name: 'lastheard_database_connections',
      help: 'Connections of the pool by state, and requests that wait for one.',
      labelNames: ['state'],
      registers: [this.registry],
      collect() {
        const { total, idle, waiting } = pool.read();
        this.set({ state: 'used' }, total - idle);
        this.set({ state: 'idle' }, idle);
        this.set({ state: 'waited-for' }, waiting);
      },
    });
  }

  measure({ method, route, status, seconds }: MeasuredRequest): void {
    // Without a route the path is somebody's invention: as a label it would grow without end.
    this.requests.observe({ method, route: route ?? 'none', status }, seconds);
    if (status < 300 && LOCATIONS.includes(route)) this.locations.inc();
  }
}
