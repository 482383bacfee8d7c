// The least that can answer the same row: Fastify, one pooled query, JSON. A child process of the
// benchmark: `node bare-server.js <database url> <site id> [prepared]`; prints its address. Without the
// last word the query is as it is usually written, and planned each time.
import fastify from 'fastify';
import { Pool } from 'pg';

const [url, siteId, prepared] = process.argv.slice(2);
const firmId = process.env['BENCH_FIRM_ID'];
// Row-level security binds it too; a bare handler would set its firm once a connection.
const options = `-c app.firm_id=${firmId}`;
const pool = new Pool({ connectionString: url, max: 10, options });
const name = prepared === undefined ? undefined : 'find site';
const values = [siteId];

const server = fastify();
server.get('/site', async () => {
  const { rows } = await pool.query({ name, text: 'SELECT * FROM sites WHERE id = $1', values });
  return rows[0] as object;
});
process.stdout.write(`${await server.listen({ port: 0, host: '127.0.0.1' })}\n`);
