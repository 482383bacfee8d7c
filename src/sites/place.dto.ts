import { IsIn, IsOptional, IsString } from 'class-validator';

/** A place of the drawing. */
export class PlaceDto {
  @IsIn(['span', 'station', 'port', 'head-end'])
  kind!: 'span' | 'station' | 'port' | 'head-end';

  /** Of a span, a station or a port. */
  @IsOptional()
  @IsString()
  trunk?: string;

  /** Of a span: the node that feeds it; null for a first span. */
  @IsOptional()
  @IsString()
  from?: string | null = null;

  /** Of a span: the node it feeds. */
  @IsOptional()
  @IsString()
  to?: string;

  /** Of a station. */
  @IsOptional()
  @IsString()
  node?: string;
}
