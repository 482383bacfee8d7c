export class HealthDto {
  /** @example "ok" */
  status!: string;
}
