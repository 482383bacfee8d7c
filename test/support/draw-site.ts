import type { TestApp } from './test-app.js';

export interface RecordNode {
  node: string;
  kind?: 'station' | 'junction-box';
  fedFrom?: string | null;
  cableMetres: number;
  room?: string | null;
}

export interface RecordTrunk {
  trunk: string;
  nodes: RecordNode[];
}

/** A site with a drawing, made through the API; gives its id. */
export async function drawSite(
  app: Pick<TestApp, 'http'>,
  trunks: RecordTrunk[],
  headEnd: object = {},
): Promise<string> {
  const { http } = app;
  const client = await http.post('/api/v1/clients').send({ name: 'Fenmoor Schools' }).expect(201);
  const { body: site } = await http
    .post('/api/v1/sites')
    .send({ clientId: client.body.id, name: 'Larkfield Lower School', zone: 'Etc/UTC' })
    .expect(201);
  await draw(app, { siteId: site.id, version: 0, headEnd, trunks });
  return site.id as string;
}

/** Draws a site anew, which was at this version. */
export async function draw(
  { http }: Pick<TestApp, 'http'>,
  drawn: { siteId: string; version: number; headEnd: object; trunks: RecordTrunk[] },
): Promise<void> {
  const { siteId, version, headEnd, trunks } = drawn;
  await http
    .put(`/api/v1/sites/${siteId}/as-built`)
    .set('If-Match', `"${version}"`)
    .send({ changedBy: 'Tester', reason: 'Drawn for the test', headEnd, trunks })
    .expect(200);
}

/** A trunk of stations in a row, `A1` to `An`, in rooms of the same number. */
export function row(trunk: string, stations: number): RecordTrunk {
  const nodes = Array.from({ length: stations }, (_, index) => ({
    node: `${trunk}${index + 1}`,
    cableMetres: 10,
    room: `Room ${index + 1}`,
  }));
  return { trunk, nodes };
}
