import { lookup } from 'node:dns';
import { request as askPlainly } from 'node:http';
import { request as askSecurely } from 'node:https';
import { isIP, type LookupFunction } from 'node:net';
import { Injectable } from '@nestjs/common';
import ipaddr from 'ipaddr.js';
import { Webhook } from 'standardwebhooks';
import { AccessSettings } from '../access/access-settings.js';

const TIMEOUT_MS = 10_000;

export interface SignedWebhook {
  id: string;
  url: string;
  secret: string;
  sentAt: Date;
  body: string;
}

/** Sends webhooks, signed as the Standard Webhooks scheme 1.0 has it (`webhook-id`, `webhook-timestamp`, `webhook-signature`). */
@Injectable()
export class WebhookSender {
  constructor(private readonly settings: AccessSettings) {}

  /**
   * The status that it was answered with; redirects are not followed. Throws when there is no answer, and when the name
   * stands for an address of the machine’s own network, which nobody outside may have it ask.
   */
  send({ id, url, secret, sentAt, body }: SignedWebhook): Promise<number> {
    const target = new URL(url);
    const literal = target.hostname.replace(/^\[|\]$/g, '');
    if (isIP(literal) !== 0 && !this.mayReach(literal)) return Promise.reject(notPublic(literal));
    const headers = {
      'content-type': 'application/json',
      'content-length': Buffer.byteLength(body),
      'user-agent': 'Lastheard',
      'webhook-id': id,
      'webhook-timestamp': String(Math.floor(sentAt.getTime() / 1000)),
      'webhook-signature': new Webhook(secret).sign(id, sentAt, body),
    };
    const ask = target.protocol === 'https:' ? askSecurely : askPlainly;
    return new Promise((resolve, reject) => {
      const signal = AbortSignal.timeout(TIMEOUT_MS);
      const options = { method: 'POST', headers, signal, agent: false, lookup: this.lookUp };
      const sent = ask(target, options, (answer) => {
        // What is in the answer is of no use, and may be long.
        answer.destroy();
        resolve(answer.statusCode ?? 0);
      });
      sent.on('error', reject).end(body);
    });
  }

  private readonly lookUp: LookupFunction = (hostname, options, callback) => {
    lookup(hostname, { ...options, all: true }, (error, addresses) => {
      if (error !== null) return callback(error, []);
      const refused = addresses.find(({ address }) => !this.mayReach(address));
      if (refused !== undefined) return callback(notPublic(refused.address), []);
      const [first] = addresses;
      if (options.all === true) callback(null, addresses);
      else callback(null, first?.address ?? '', first?.family);
    });
  };

  private mayReach(address: string): boolean {
    return this.settings.reachesPrivate || ipaddr.process(address).range() === 'unicast';
  }
}

function notPublic(address: string): Error {
  return new Error(`${address} is not a public address`);
}
