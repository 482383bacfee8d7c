// An app process, as small as can be, for tests that kill it: `node run-built-in-server.js <data directory>`.
// Prints one line of JSON when the server is there; at SIGINT asks the server something, then stops it.
import { withClient } from '#app/database/built-in-roles.js';
import { startBuiltInServer } from '#app/database/built-in-server.js';

const lines: string[] = [];
const print = (value: object) => process.stdout.write(`${JSON.stringify(value)}\n`);

try {
  const server = await startBuiltInServer({
    dataDirectory: process.argv[2]!,
    log: (line) => lines.push(line),
  });
  process.on('SIGINT', () => {
    void withClient(server.appUrl, async (client) => {
      const { rows } = await client.query<{ answer: number }>('select 42 as answer');
      return rows[0]!.answer;
    }).then(async (answer) => {
      await server.stop();
      print({ answer, lines });
    });
  });
  print({ appUrl: server.appUrl, ownerUrl: server.ownerUrl, lines });
} catch (error) {
  print({ failure: (error as Error).message, reason: (error as { reason?: string }).reason });
}
