import { Injectable } from '@nestjs/common';
import { toString as toQrCode } from 'qrcode';
import { Clock } from '../shared/clock.js';
import { NotFoundError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { SitesService } from '../sites/sites.service.js';
import { AccessSettings } from '../access/access-settings.js';
import { PASS_SECRET_BYTES } from './pass-rules.js';
import { SecretService } from '../access/secret.service.js';
import type { NewSitePassDto, SitePassDto } from './site-pass.dto.js';
import type { SitePass } from './site-pass.entity.js';
import { SitePassRepository } from './site-pass.repository.js';

/** Gives sites their passes; each within the firm's transaction. */
@Injectable()
export class SitePassService {
  constructor(
    private readonly repository: SitePassRepository,
    private readonly sites: SitesService,
    private readonly secrets: SecretService,
    private readonly settings: AccessSettings,
    private readonly clock: Clock,
  ) {}

  /** Makes a pass and ends those that the site had. */
  async issue(siteId: string): Promise<NewSitePassDto> {
    await this.sites.lockSite(siteId);
    const now = this.clock.now();
    await this.repository.endOfSite(siteId, now);
    const secret = this.secrets.create(PASS_SECRET_BYTES);
    const pass = { id: idOrNew(undefined), siteId, createdAt: now, endedAt: null };
    await this.repository.insert({ ...pass, secretHash: this.secrets.hash(secret) });
    const { publicUrl, linkWarning } = this.settings;
    const link = `${publicUrl}/pass#${secret}`;
    const qrSvg = await toQrCode(link, { type: 'svg', margin: 4 });
    return { ...pass, link, qrSvg, linkWarning };
  }

  async list(siteId: string): Promise<SitePassDto[]> {
    await this.sites.get(siteId);
    return (await this.repository.listOfSite(siteId)).map(toDto);
  }

  async end(passId: string): Promise<void> {
    if ((await this.repository.find(passId)) === null) throw new NotFoundError('pass', passId);
    await this.repository.end(passId, this.clock.now());
  }
}

function toDto({ id, siteId, createdAt, endedAt }: SitePass): SitePassDto {
  return { id, siteId, createdAt, endedAt };
}
