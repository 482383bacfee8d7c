import { ApiProperty } from '@nestjs/swagger';
import { IsIn, IsOptional } from 'class-validator';
import { type Language, LANGUAGES } from '../words/index.js';

/** For whom a paper is: of those who ask for one few are the ones who read it. */
export class LanguageQueryDto {
  /** Of the words; left out: by `Accept-Language`. */
  @IsOptional()
  @IsIn(LANGUAGES)
  @ApiProperty({ enum: LANGUAGES, required: false })
  language?: Language;
}
