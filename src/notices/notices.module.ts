import { Module } from '@nestjs/common';
import { AccessModule } from '../access/access.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { NoticeWishController } from './notice-wish.controller.js';
import { NoticeWishRepository } from './notice-wish.repository.js';
import { NoticeWishService } from './notice-wish.service.js';
import { NoticeRepository } from './notice.repository.js';
import { NoticeService } from './notice.service.js';
import { WebhookSender } from './webhook-sender.service.js';

@Module({
  imports: [AccessModule, SitesModule],
  controllers: [NoticeWishController],
  providers: [
    NoticeRepository,
    NoticeService,
    NoticeWishRepository,
    NoticeWishService,
    WebhookSender,
  ],
})
export class NoticesModule {}
