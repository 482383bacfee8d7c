import { AsyncLocalStorage } from 'node:async_hooks';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { chooseLanguage, DEFAULT_LANGUAGE, type Language, LANGUAGES } from '../words/index.js';
import { isUnder } from './is-under.js';

const languages = new AsyncLocalStorage<Language>();

/** The language that whoever asks reads best; outside of requests English. */
export function currentLanguage(): Language {
  return languages.getStore() ?? DEFAULT_LANGUAGE;
}

declare module 'fastify' {
  interface FastifyRequest {
    /** Found once: lists of languages take long to read. */
    language: Language;
  }
}

interface Asked {
  query: unknown;
  headers: { 'accept-language'?: string };
}

/** A paper may be asked for in its reader's language, which need not be the asker's; what else is sent is refused by its DTO. */
function languageOf({ query, headers }: Asked): Language {
  const { language } = query as { language?: unknown };
  return LANGUAGES.find((one) => one === language) ?? chooseLanguage(headers['accept-language']);
}

/** Words go in the language asked for; problems are English, with the words for people beside, see the filter. */
export function answerInLanguage(app: NestFastifyApplication): void {
  const server = app.getHttpAdapter().getInstance();
  server.decorateRequest('language', DEFAULT_LANGUAGE);
  server.addHook('onRequest', (request, reply, done) => {
    const language = languageOf(request);
    request.language = language;
    if (isUnder('/api/v1/', request)) {
      void reply.headers({ 'content-language': language, vary: 'Accept-Language' });
    }
    done();
  });
  // After the body was read: what reads it does not keep the context.
  server.addHook('preHandler', (request, _reply, done) => {
    languages.run(request.language, done);
  });
}
