import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { NotFoundError, StaleVersionError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { patchFields } from '../shared/validation.js';
import { withoutFirm } from '../shared/without-firm.js';
import { type ClientDto, ClientFieldsDto, type CreateClientDto } from './client.dto.js';
import type { Client } from './client.entity.js';
import { ClientRepository } from './client.repository.js';

@Injectable()
export class ClientService {
  constructor(
    private readonly repository: ClientRepository,
    private readonly clock: Clock,
  ) {}

  async create({ id, ...fields }: CreateClientDto): Promise<ClientDto> {
    const client = { ...fields, id: idOrNew(id), version: 1, createdAt: this.clock.now() };
    await this.repository.insert(client);
    return client;
  }

  async get(id: string): Promise<ClientDto> {
    return withoutFirm(await this.find(id));
  }

  async exists(id: string): Promise<boolean> {
    return (await this.repository.find(id)) !== null;
  }

  async list({ after, limit }: PageQueryDto): Promise<Page<ClientDto>> {
    const clients = await this.repository.list(decodeCursor(after, 2), limit + 1);
    return toPage(clients, limit, (client) => [client.name, client.id], withoutFirm);
  }

  async change(id: string, version: number, patch: Record<string, unknown>): Promise<ClientDto> {
    const client = await this.find(id);
    if (client.version !== version) throw new StaleVersionError(client.version);
    const fields = await patchFields(ClientFieldsDto, client, patch);
    const changed = { ...client, ...fields, version: version + 1 };
    await this.repository.update(changed, version);
    return withoutFirm(changed);
  }

  private async find(id: string): Promise<Client> {
    const client = await this.repository.find(id);
    if (client === null) throw new NotFoundError('client', id);
    return client;
  }
}
