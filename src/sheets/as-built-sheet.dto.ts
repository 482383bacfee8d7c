import { ApiProperty } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsBoolean, IsOptional, IsString, MaxLength, ValidateBy } from 'class-validator';
import { AsBuiltChangeDto } from '../sites/as-built-comparison.dto.js';

const LANGUAGE_TAG = {
  validate(value: unknown): boolean {
    try {
      return typeof value === 'string' && Intl.DateTimeFormat.supportedLocalesOf(value).length > 0;
    } catch {
      return false;
    }
  },
  defaultMessage: () => '$property must be the tag of a language that is known here, such as en-GB',
};

/** "true" and "false" of an address. */
const asBoolean = Transform(({ value }: { value: unknown }) =>
  value === 'true' || value === 'false' ? value === 'true' : value,
);

export class PutSheetQueryDto {
  /** Answer what would change, and save nothing. */
  @ApiProperty({ type: Boolean, default: false })
  @asBoolean
  @IsBoolean()
  check: boolean = false;

  /** Leave out columns that an as-built sheet does not have, and tell of them in `notes`; else they are errors. */
  @ApiProperty({ type: Boolean, default: false })
  @asBoolean
  @IsBoolean()
  leaveOutUnknownColumns: boolean = false;

  /**
   * The language tag by which the sheet's days and numbers are written ("3/5/2024", "1.200"). Left out: a day or number that
   * could be two is an error.
   */
  @ApiProperty({ example: 'en-GB' })
  @IsOptional()
  @MaxLength(35)
  @ValidateBy({ name: 'isLanguageTag', validator: LANGUAGE_TAG })
  locale?: string;

  /** Which sheet of a workbook; left out: the first with the columns of an as-built sheet. */
  @ApiProperty({ maxLength: 31, example: 'As built' })
  @IsOptional()
  @MaxLength(31)
  @IsString()
  sheet?: string;

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

/** What of a sheet was not taken as it stands. */
export class SheetNoteDto {
  line!: number;
  column?: string;
  /** @example "a total; left out" */
  note!: string;
  /** The same in the language asked for, where that is not English. */
  words?: string;
}

export class AsBuiltSheetChangeDto extends AsBuiltChangeDto {
  /** Titles, totals, columns and repeated headers that were left out; branches that were put on their trunk. At most 100. */
  notes!: SheetNoteDto[];
}
