import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { HealthDto } from './health.dto.js';
import { HealthService } from './health.service.js';

@ApiTags('health')
@Controller('health')
export class HealthController {
  constructor(private readonly service: HealthService) {}

  /** Says that the process runs. */
  @Get('live')
  live(): HealthDto {
    return { status: 'ok' };
  }

  /** Says that it can do its work: the database answers. */
  @Get('ready')
  async ready(): Promise<HealthDto> {
    await this.service.checkDatabase();
    return { status: 'ok' };
  }
}
