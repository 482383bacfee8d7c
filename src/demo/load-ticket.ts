import type { ApiClient } from './api-client.js';
import type { Calendar } from './calendar.js';
import type { SeedSite, SeedTicket } from './seed-files.js';

interface LoadedTicket {
  id: string;
  askFirst: { question: string }[];
  stillToProve: { trunk: string; node: string; function: string }[];
}

/** Takes one of the demo's tickets through its life, as far as it came. Gives its id. */
export async function loadTicket(
  api: ApiClient,
  site: SeedSite,
  seed: SeedTicket,
  calendar: Calendar,
): Promise<string> {
  const { saidBy, how, observations, note, daysAgo, time } = seed;
  const office = { saidBy, saidAt: calendar.at(daysAgo, time, site.zone) };
  const technician = { name: seed.by ?? 'Demo', kind: 'technician' };
  const later = (minutes: number) => ({
    saidBy: technician,
    saidAt: calendar.at(daysAgo, time, site.zone, minutes),
  });
  const report = { ...office, how, observations, note };
  const { tickets } = await api.post<{ tickets: [LoadedTicket] }>(
    `/sites/${site.id}/reports`,
    report,
  );
  const [{ id, askFirst, stillToProve }] = tickets;
  const add = (what: string, body: object) => api.post(`/tickets/${id}/${what}`, body);
  if (seed.troubleClass !== undefined) {
    await add('trouble-class', { ...office, ...seed.troubleClass });
  }
  for (const answer of seed.answers) await add('answers', { ...office, ...answer });
  if (seed.finding === undefined && seed.nothingFound === undefined) return id;
  // An answer that explains it spares the visit.
  if (seed.answers.every(({ answer }) => answer !== 'no')) {
    const answered = seed.answers.map(({ question }) => question);
    for (const { question } of askFirst.filter((one) => !answered.includes(one.question))) {
      await add('answers', { ...office, question, answer: 'yes' });
    }
    await add('moves', { ...later(20), to: 'to-visit' });
  }
  if (seed.pause !== undefined) {
    const { minutesAfter, minutes, ...pause } = seed.pause;
    await add('pauses', { ...later(minutesAfter), ...pause });
    await add('pauses/end', later(minutesAfter + minutes));
  }
  await add('findings', { ...later(150), ...seed.finding });
  if (seed.mending !== undefined) {
    const { kind, followUpInDays, ...done } = seed.mending;
    const followUpDueOn =
      followUpInDays === undefined ? null : calendar.day(daysAgo - followUpInDays, site.zone);
    await add('mendings', { ...later(150 + done.minutes), mending: kind, ...done, followUpDueOn });
  }
  if (seed.walkTest !== undefined) {
    const proven = stillToProve.map((point) => ({ ...point, outcome: 'works' }));
    await add('walk-tests', { ...later(400), observations: proven });
  }
  if (seed.closed) await add('moves', { ...later(410), to: 'closed' });
  if (seed.breachCause !== undefined) await tellCauses(api, id, later(420), seed.breachCause);
  return id;
}

/** Which promises were not kept depends on the day of the week that it was. */
async function tellCauses(api: ApiClient, id: string, said: object, cause: string): Promise<void> {
  const { promises } = await api.get<{ promises: { promise: string; state: string }[] }>(
    `/tickets/${id}/clock`,
  );
  for (const { promise } of promises.filter(({ state }) => state === 'breached')) {
    await api.post(`/tickets/${id}/breach-causes`, { ...said, promise, cause });
  }
}
