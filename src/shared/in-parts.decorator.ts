import { Reflector } from '@nestjs/core';

/**
 * A route that is not one transaction: its service reads, lets go, works something out on the pool, and writes, each in a
 * short transaction of its own (decision 0039).
 */
export const InParts = Reflector.createDecorator<undefined>();
