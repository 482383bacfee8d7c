// What the firm settles about itself, seldom opened: loaded when it is.
export { FirmPage } from './firm-page.js';
export { PlanningPage } from './planning-page.js';
export { PricesPage } from './prices-page.js';
export { VanPage } from './van-page.js';
export { WorkTimesPage } from './work-times-page.js';
export { WorkingTimePage } from './working-time-page.js';
