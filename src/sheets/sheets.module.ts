import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { AsBuiltSheetController } from './as-built-sheet.controller.js';
import { AsBuiltSheetService } from './as-built-sheet.service.js';
import { WorkbookService } from './workbook.service.js';

@Module({
  imports: [SitesModule],
  controllers: [AsBuiltSheetController],
  providers: [AsBuiltSheetService, WorkbookService],
})
export class SheetsModule {}
