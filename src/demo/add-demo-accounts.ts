import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { SetUpService } from '../access/set-up.service.js';
import type { Work } from '../people/roles.js';
import type { Seeds } from './seed-files.js';

/** Everybody of the demo has it: there is nothing to protect in an invented firm. */
export const DEMO_PASSWORD = 'the kettle sings at nine';

/** Somebody who can sign in. */
export interface DemoAccount {
  email: string;
  role: string;
}

/** Loads the demo and tries it out; not one of the seeds' people. */
const LOADER = {
  personId: '01930000-0000-7000-8000-00000001ffff',
  name: 'Demo loader',
  email: 'loader@demo.example',
  role: 'owner',
} as const;

/** A fresh token for loading the demo, as an owner. */
export async function makeDemoToken(app: NestFastifyApplication, firmId: string): Promise<string> {
  const setUp = app.get(SetUpService);
  await setUp.ensureAccount(firmId, LOADER);
  return setUp.replaceToken(firmId, LOADER.personId, 'Demo');
}

/** Gives the seeds' people and one of a client's their sign-ins, unless they have them. */
export async function addDemoAccounts(
  app: NestFastifyApplication,
  firmId: string,
  { people, clients }: Seeds,
): Promise<DemoAccount[]> {
  const setUp = app.get(SetUpService);
  const accounts: DemoAccount[] = [];
  for (const { id, name, work } of people) {
    const account = { email: demoEmail(name), role: work as Work };
    await setUp.ensureAccount(firmId, {
      ...account,
      personId: id,
      name,
      password: DEMO_PASSWORD,
    });
    accounts.push(account);
  }
  const [client] = clients;
  if (client !== undefined) {
    const account = { email: 'office@client.example', role: 'client' as const };
    const fields = { name: `Office of ${client.name}`, clientId: client.id };
    await setUp.ensureAccount(firmId, { ...account, ...fields, password: DEMO_PASSWORD });
    accounts.push(account);
  }
  return accounts;
}

/** What somebody of the seeds signs in with. */
export function demoEmail(name: string): string {
  return `${name.toLowerCase().replaceAll(' ', '.')}@demo.example`;
}
