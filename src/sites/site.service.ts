import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { InvalidInputError, NotFoundError, StaleVersionError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { patchFields } from '../shared/validation.js';
import { withoutFirm } from '../shared/without-firm.js';
import { ClientService } from './client.service.js';
import { type CreateSiteDto, type SiteDto, SiteFieldsDto, type SiteQueryDto } from './site.dto.js';
import type { Site } from './site.entity.js';
import { SiteRepository } from './site.repository.js';

@Injectable()
export class SiteService {
  constructor(
    private readonly repository: SiteRepository,
    private readonly clients: ClientService,
    private readonly clock: Clock,
  ) {}

  async create({ id, ...fields }: CreateSiteDto): Promise<SiteDto> {
    await this.check(fields);
    const createdAt = this.clock.now();
    const site = { ...fields, id: idOrNew(id), version: 1, asBuiltVersion: 0, createdAt };
    await this.repository.insert(site);
    return site;
  }

  async get(id: string): Promise<SiteDto> {
    return withoutFirm(found(id, await this.repository.find(id)));
  }

  /** In one statement, in the order of the ids; a not-found error where one is not there. */
  async listOfIds(ids: readonly string[]): Promise<SiteDto[]> {
    const sites = new Map((await this.repository.listOfIds(ids)).map((site) => [site.id, site]));
    return ids.map((id) => withoutFirm(found(id, sites.get(id))));
  }

  /** The site, which nobody else changes until the transaction ends. */
  async lock(id: string): Promise<SiteDto> {
    return withoutFirm(found(id, await this.repository.findAndLock(id)));
  }

  async list({ client, after, limit }: SiteQueryDto): Promise<Page<SiteDto>> {
    const sites = await this.repository.list(client, decodeCursor(after, 2), limit + 1);
    return toPage(sites, limit, (site) => [site.name, site.id], withoutFirm);
  }

  async change(id: string, version: number, patch: Record<string, unknown>): Promise<SiteDto> {
    const site = found(id, await this.repository.find(id));
    if (site.version !== version) throw new StaleVersionError(site.version);
    const fields = await patchFields(SiteFieldsDto, site, patch);
    await this.check(fields);
    const changed = { ...site, ...fields, version: version + 1 };
    await this.repository.update(changed, version);
    return withoutFirm(changed);
  }

  /** Only for the as-built record, under the site's lock. */
  setAsBuiltVersion(id: string, asBuiltVersion: number): Promise<void> {
    return this.repository.setAsBuiltVersion(id, asBuiltVersion);
  }

  private async check({ clientId, latitude, longitude }: SiteFieldsDto): Promise<void> {
    if ((latitude === null) !== (longitude === null)) {
      const field = latitude === null ? '/latitude' : '/longitude';
      throw new InvalidInputError([{ field, reason: 'is missing: a position has both' }]);
    }
    if (!(await this.clients.exists(clientId))) {
      const reason = `there is no client ${clientId}`;
      throw new InvalidInputError([{ field: '/clientId', reason }]);
    }
  }
}

function found(id: string, site: Site | null | undefined): Site {
  if (site == null) throw new NotFoundError('site', id);
  return site;
}
