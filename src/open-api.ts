import type { INestApplication } from '@nestjs/common';
import { DocumentBuilder, type OpenAPIObject, SwaggerModule } from '@nestjs/swagger';
import { findRouteRule } from './access/route-roles.js';
import { problemResponse } from './shared/api-problems.decorator.js';
import { routeKey } from './shared/route-key.js';

type OperationObject = NonNullable<OpenAPIObject['paths'][string]['get']>;

interface Schema {
  required?: string[];
  properties?: Record<string, object>;
}

interface Parameter {
  name: string;
  in: string;
  required?: boolean;
  schema: object;
}

const IF_MATCH = {
  name: 'If-Match',
  in: 'header' as const,
  required: true,
  description: 'The ETag that was read with what is being changed.',
  schema: { type: 'string' as const, example: '"3"' },
};

type Operation = NonNullable<PathItem['get']>;
type PathItem = OpenAPIObject['paths'][string];

/** The OpenAPI 3.1 document, generated from the code. */
export function createOpenApiDocument(app: INestApplication): OpenAPIObject {
  const config = new DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Lastheard')
    .setDescription('When rooms go silent, it says where to go.')
    .setVersion('1')
    .addCookieAuth('lastheard', { type: 'apiKey', in: 'cookie' }, 'session')
    .addBearerAuth({ type: 'http' }, 'token')
    .build();
  const document = SwaggerModule.createDocument(app, config, {
    operationIdFactory: (controller, method) =>
      `${controller.replace(/Controller$/, '')}_${method}`,
  });
  return complete(document);
}

/** Says what the generator cannot see: what has a default may be left out, which ids are UUIDs. */
function complete(document: OpenAPIObject): OpenAPIObject {
  for (const schema of Object.values(document.components?.schemas ?? {})) {
    if ('properties' in schema) completeSchema(schema);
  }
  for (const [path, item] of Object.entries(document.paths)) {
    for (const method of ['get', 'post', 'put', 'patch', 'delete'] as const) {
      const operation = item[method];
      if (operation !== undefined) sayWhoMay(operation, routeKey(method.toUpperCase(), path));
      for (const parameter of operation?.parameters ?? []) {
        if (isParameter(parameter)) completeParameter(parameter);
      }
      if (operation !== undefined) completeOperation(operation);
    }
  }
  return document;
}

/** What the table of roles says of a route, and the failures that follow from it. */
function sayWhoMay(operation: OperationObject, documented: string): void {
  const rule = findRouteRule(documented.replaceAll(/\{(\w+)\}/g, ':$1'));
  if (rule === undefined || rule === 'open') return;
  operation.security = [{ session: [] }, ...(rule.area === null ? [] : [{ token: [] }])];
  const who = `For: ${rule.roles.join(', ')}.`;
  operation.description = [operation.description, who].filter(Boolean).join('\n\n');
  operation.responses = {
    ...problemResponse(401),
    ...problemResponse(403),
    ...problemResponse(429),
    ...operation.responses,
  };
}

function completeSchema(schema: Schema): void {
  const { properties = {} } = schema;
  schema.required = schema.required?.filter((name) => !('default' in (properties[name] ?? {})));
}

function isParameter(parameter: object): parameter is Parameter {
  return 'schema' in parameter && parameter.schema !== undefined;
}

function completeParameter(parameter: Parameter): void {
  if ('default' in parameter.schema) parameter.required = false;
  if (parameter.in === 'path' && /(^i|I)d$/.test(parameter.name)) {
    parameter.schema = { ...parameter.schema, format: 'uuid' };
  }
}

/** What is refused before it is known which route is meant for whom, and what is told while the database is away. */
const OF_EVERY_ROUTE = [400, 403, 414, 422, 429, 431, 503] as const;
const WITH_A_BODY = [413, 415] as const;

function completeOperation(operation: Operation): void {
  const statuses = operation.requestBody ? [...OF_EVERY_ROUTE, ...WITH_A_BODY] : OF_EVERY_ROUTE;
  const common = statuses.map((status) => problemResponse(status));
  operation.responses = Object.assign({}, ...common, operation.responses) as Operation['responses'];
  completeResponses(operation.responses);
  const { parameters = [] } = operation;
  const isNamed = parameters.some((one) => 'name' in one && one.name === IF_MATCH.name);
  if ('428' in operation.responses && !isNamed) operation.parameters = [...parameters, IF_MATCH];
}

function completeResponses(responses: object): void {
  for (const [status, response] of Object.entries(responses) as [
    string,
    { description?: string },
  ][]) {
    if (response.description === '') {
      response.description = status === '201' ? 'It was added.' : 'The answer.';
    }
  }
}
