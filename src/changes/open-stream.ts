import type { FastifyReply, FastifyRequest } from 'fastify';
import type { ChangeService } from './change.service.js';
import { EventStream } from './event-stream.js';

const BEAT_MS = 25_000;
/** Then whoever listens comes again, and shows who they are once more: a session may have ended. */
const LONGEST_MS = 15 * 60_000;

interface Opened {
  firmId: string;
  request: FastifyRequest;
  reply: FastifyReply;
}

/** Answers with events until one of both ends it. */
export async function openStream(
  service: ChangeService,
  { firmId, request, reply }: Opened,
): Promise<void> {
  const { raw } = reply;
  const stream = new EventStream(firmId, raw);
  const last = request.headers['last-event-id'];
  // Whoever leaves while it is not heard yet is gone before there is anything to end.
  const ends: (() => void)[] = [];
  let isGone = request.raw.socket.destroyed;
  raw.once('close', () => {
    isGone = true;
    for (const end of ends) end();
  });
  const waiting: (() => void)[] = [];
  // Nothing is written before it is certain that it can be answered so.
  const whenOpen = (tell: () => void) => (raw.headersSent ? tell() : void waiting.push(tell));
  const leave = await service.listen(
    {
      firmId,
      tell: (change) => whenOpen(() => stream.tell(change)),
      tellGap: (at) => whenOpen(() => stream.tellGap(at)),
      // One that is not open yet is refused by the service.
      end: () => void (raw.headersSent && stream.end()),
    },
    typeof last === 'string' ? last : undefined,
  );
  reply.hijack();
  if (isGone) return leave();
  const headers = {
    ...reply.getHeaders(),
    'content-type': 'text/event-stream; charset=utf-8',
    // Nobody else's request comes after it, and a process that stops waits for none.
    connection: 'close',
  };
  raw.writeHead(200, headers as Record<string, string>);
  stream.beat();
  for (const tell of waiting) tell();
  const beats = setInterval(() => stream.beat(), BEAT_MS);
  const end = setTimeout(() => stream.end(), LONGEST_MS);
  ends.push(
    () => clearInterval(beats),
    () => clearTimeout(end),
    leave,
  );
}
