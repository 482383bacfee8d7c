import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { AppModule, type AppSettings } from './app.module.js';
import { BODY_LIMIT_BYTES, configureApp } from './configure-app.js';

/** The app on a migrated database, configured but not listening yet. */
export async function createApp(settings: AppSettings): Promise<NestFastifyApplication> {
  const app = await NestFactory.create<NestFastifyApplication>(
    AppModule.with(settings),
    new FastifyAdapter({ bodyLimit: BODY_LIMIT_BYTES, forceCloseConnections: 'idle' }),
    { logger: ['error', 'warn', 'fatal'], abortOnError: false },
  );
  return configureApp(app);
}
