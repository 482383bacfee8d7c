import type { TestApp } from './test-app.js';

export interface DrawnNode {
  node: string;
  kind?: 'station' | 'junction-box';
  fedFrom?: string | null;
  cableMetres: number;
  room?: string | null;
}

/** A site with a drawing, made through the API; gives its id. */
export async function drawSite(
  { http }: Pick<TestApp, 'http'>,
  trunks: { trunk: string; nodes: DrawnNode[] }[],
): Promise<string> {
  const client = await http.post('/api/v1/clients').send({ name: 'Fenmoor Schools' }).expect(201);
  const { body: site } = await http
    .post('/api/v1/sites')
    .send({ clientId: client.body.id, name: 'Larkfield Lower School', zone: 'Etc/UTC' })
    .expect(201);
  await http
    .put(`/api/v1/sites/${site.id}/as-built`)
    .set('If-Match', '"0"')
    .send({ changedBy: 'Tester', reason: 'Drawn for the test', headEnd: {}, trunks })
    .expect(200);
  return site.id as string;
}

/** A trunk of stations in a row, `A1` to `An`, in rooms of the same number. */
export function row(trunk: string, stations: number): { trunk: string; nodes: DrawnNode[] } {
  const nodes = Array.from({ length: stations }, (_, index) => ({
    node: `${trunk}${index + 1}`,
    cableMetres: 10,
    room: `Room ${index + 1}`,
  }));
  return { trunk, nodes };
}
