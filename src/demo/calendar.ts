import { Temporal } from 'temporal-polyfill';

/** Turns the seeds' days and times into instants, counted back from the day of loading. */
export class Calendar {
  constructor(private readonly now: Date) {}

  /** The day, as the site's calendar has it. */
  day(daysAgo: number, zone: string): string {
    return this.today(zone).subtract({ days: daysAgo }).toString();
  }

  /** A time of that day at the site; without a time, or when it is still to come: now. */
  at(daysAgo: number, time: string | undefined, zone: string, minutesLater = 0): string {
    if (time === undefined) return this.now.toISOString();
    const day = this.today(zone).subtract({ days: daysAgo });
    const local = day.toPlainDateTime(Temporal.PlainTime.from(time)).toZonedDateTime(zone);
    const at = new Date(local.epochMilliseconds + minutesLater * 60_000);
    return (at < this.now ? at : this.now).toISOString();
  }

  private today(zone: string): Temporal.PlainDate {
    const instant = Temporal.Instant.fromEpochMilliseconds(this.now.getTime());
    return instant.toZonedDateTimeISO(zone).toPlainDate();
  }
}
