import { Readable } from 'node:stream';
import { applyDecorators, StreamableFile } from '@nestjs/common';
import { ApiOkResponse } from '@nestjs/swagger';

type FileType = 'application/pdf' | 'text/csv';

const DESCRIPTIONS: Readonly<Record<FileType, string>> = {
  'application/pdf': 'The PDF.',
  'text/csv': 'The sheet.',
};

/** Says in the API document that a route answers with a file. */
export function ApiFile(type: FileType): MethodDecorator {
  const schema = { type: 'string', ...(type === 'application/pdf' && { format: 'binary' }) };
  const description = DESCRIPTIONS[type];
  return applyDecorators(ApiOkResponse({ description, content: { [type]: { schema } } }));
}

/** What a browser opens if it is a PDF, and keeps under this name if it is a sheet. */
export function fileAnswer(
  type: FileType,
  content: Readable | Uint8Array | string,
  fileName: string,
): StreamableFile {
  const isPdf = type === 'application/pdf';
  const options = {
    type: isPdf ? type : `${type}; charset=utf-8`,
    disposition: `${isPdf ? 'inline' : 'attachment'}; filename="${fileName}"`,
  };
  if (content instanceof Readable) return new StreamableFile(content, options);
  return new StreamableFile(typeof content === 'string' ? Buffer.from(content) : content, options);
}
