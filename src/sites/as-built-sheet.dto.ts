import { ApiProperty } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsBoolean, IsOptional, IsString } from 'class-validator';

export class PutSheetQueryDto {
  /** Answer what would change, and save nothing. */
  @ApiProperty({ type: Boolean, default: false })
  @Transform(({ value }: { value: unknown }) =>
    value === 'true' || value === 'false' ? value === 'true' : value,
  )
  @IsBoolean()
  check: boolean = false;

  /** Who changes it; needed unless it is only checked. */
  @ApiProperty({ maxLength: 200, example: 'Ilvo Marsh' })
  @IsOptional()
  @IsString()
  changedBy?: string;

  /** Why; needed unless it is only checked. */
  @ApiProperty({ maxLength: 500, example: 'Sheet of the installer' })
  @IsOptional()
  @IsString()
  reason?: string;
}
