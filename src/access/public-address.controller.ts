import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AccessSettings } from './access-settings.js';
import { PublicAddressDto } from './public-address.dto.js';

@ApiTags('people')
@Controller('public-address')
export class PublicAddressController {
  constructor(private readonly settings: AccessSettings) {}

  /** Reads where people reach the service, as whoever runs it has set it. */
  @Get()
  get(): PublicAddressDto {
    return { address: this.settings.setUrl };
  }
}
