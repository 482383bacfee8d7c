import { ApiProperty } from '@nestjs/swagger';

/** A link that opens one site. What it is made of was shown once and is kept nowhere. */
export class SitePassDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  createdAt!: Date;
  /** Null as long as it works. */
  endedAt!: Date | null;
}

export class NewSitePassDto extends SitePassDto {
  /**
   * Shown this once. The secret stands behind the #, which browsers send to nobody.
   * @example "https://lastheard.example/pass#k3…"
   */
  link!: string;

  /** The link as a QR code, an SVG image for the poster. */
  qrSvg!: string;

  /** Why others may not reach the link; null where it is as it should be. */
  linkWarning!: string | null;
}

export class SitePassListDto {
  /** Newest first, at most 100: the one that works is the first. */
  items!: SitePassDto[];
}
