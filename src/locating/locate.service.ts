import { Injectable } from '@nestjs/common';
import {
  ImpossibleEvidence,
  InvalidLocateRequest,
  locate,
  type LocateResult,
} from '../locator/index.js';
import { InvalidInputError } from '../shared/domain-error.js';

/** The locator as it is: a drawing and evidence in, the whole result out. */
@Injectable()
export class LocateService {
  locate(request: unknown): LocateResult {
    try {
      return locate(request);
    } catch (error) {
      const isInput = error instanceof InvalidLocateRequest || error instanceof ImpossibleEvidence;
      if (!isInput) throw error;
      throw new InvalidInputError(
        error.errors.map(({ pointer, reason }) => ({ field: pointer, reason })),
      );
    }
  }
}
