import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { FastifyReply } from 'fastify';

const pack = promisify(gzip);

/** Packing what is shorter saves nothing. */
const SHORTEST_PACKED = 4_000;

/** What is answered, in JSON as it was written by another thread; for as many as ask for it made into bytes, and packed, once. */
export class WrittenAnswer {
  private plain?: Buffer;
  private packed?: Promise<Buffer>;

  constructor(readonly text: string) {}

  /** The body for whoever takes these encodings (RFC 9110, section 12.5.3); the reply says which it is. */
  body(reply: FastifyReply, accepted: string | undefined): Buffer | Promise<Buffer> {
    void reply.header('vary', 'Accept-Language, Accept-Encoding');
    this.plain ??= Buffer.from(this.text);
    if (this.plain.length < SHORTEST_PACKED || !takesPacked(accepted)) return this.plain;
    void reply.header('content-encoding', 'gzip');
    // On a thread of Node's own.
    return (this.packed ??= pack(this.plain));
  }
}

function takesPacked(accepted = ''): boolean {
  return accepted.split(',').some((one) => {
    const [name = '', ...parameters] = one.split(';').map((part) => part.trim().toLowerCase());
    return name === 'gzip' && !parameters.some((part) => /^q=0(\.0*)?$/.test(part));
  });
}
