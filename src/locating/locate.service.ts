import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { asInvalidInput, LOCATE } from './locating-tasks.js';

/** The locator as it is: a drawing and evidence in, the whole result out. */
@Injectable()
export class LocateService {
  constructor(private readonly compute: ComputeService) {}

  /** The result in JSON, see `LocateResultDto`. */
  async locate(request: unknown): Promise<string> {
    try {
      return await this.compute.run(LOCATE, request);
    } catch (error) {
      throw asInvalidInput(error);
    }
  }
}
