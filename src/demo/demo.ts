import { fileURLToPath } from 'node:url';
import { readConfig } from '../config.js';
import { createJsonLog } from '../observability/json-log.js';
import { start } from '../start.js';
import { stopOnSignal } from '../stop-on-signal.js';
import { ApiClient } from './api-client.js';
import { addDemoAccounts, DEMO_PASSWORD, makeDemoToken } from './add-demo-accounts.js';
import { loadSeeds } from './load-seeds.js';
import { managerLine } from './manager-line.js';
import { mainJob } from './main-job.js';
import { MAIN_JOB, readSeeds } from './seed-files.js';
import { signVisits } from './sign-visits.js';

const SEEDS = fileURLToPath(new URL('../../seeds', import.meta.url));

const log = (line: string) => process.stdout.write(`${line}\n`);

function end(error: unknown): void {
  const text = error instanceof Error ? error.message : String(error);
  process.stderr.write(`${text}\n`, () => process.exit(1));
}

try {
  const seeds = readSeeds(SEEDS);
  const config = readConfig({ FIRM_NAME: seeds.firm.name, ...process.env });
  const { app, address, stop } = await start(config, {
    say: log,
    log: createJsonLog('warn'),
    onLost: end,
  });
  stopOnSignal(stop, log);
  const token = await makeDemoToken(app, config.firm.id);
  const api = new ApiClient(app, token);
  const isNew = await loadSeeds(api, seeds, SEEDS, new Date(), log);
  const accounts = await addDemoAccounts(app, config.firm.id, seeds);
  if (isNew) await signVisits(app, seeds, new Date());
  const job = seeds.tickets.find(({ key }) => key === MAIN_JOB);
  const site = seeds.sites.find(({ key }) => key === job?.siteKey);
  if (job === undefined || site === undefined) throw new Error('The seeds name no main job');
  log(`\n${await mainJob(api, site, job)}\n`);
  log(`${await managerLine(api, site.id, seeds.people, new Date())}\n`);

  log(`Lastheard serves on ${address}`);
  log(`  the API to read and try: ${address}/api/docs`);
  log(`  all sites: curl -H 'Authorization: Bearer ${token}' ${address}/api/v1/sites`);
  log(`  sign-ins (POST ${address}/api/v1/session), all with the password "${DEMO_PASSWORD}":`);
  for (const { email, role } of accounts) log(`    ${email}  ${role}`);
  const pass = await api.post<{ link: string }>(`/sites/${site.id}/passes`, {});
  log(`  the page of the office of ${site.name}, to open in a browser: ${pass.link}`);
  log('Ctrl-C stops it.');
} catch (error) {
  end(error);
}
