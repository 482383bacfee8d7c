import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadDayPlan } from '../../parts/wire.js';
import { DAY_WORDS } from '../words/words.js';

interface MakePlanProps {
  day: string;
  plan: ReadDayPlan | undefined;
  onChanged: () => void;
}

/** Asks for a plan of the day, and does as it says. */
export function MakePlan({ day, plan, onChanged }: MakePlanProps) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const { role } = service.session.person;
  if (role !== 'owner' && role !== 'dispatcher') return null;
  const make = () =>
    send(async () => {
      await service.send('POST', `/plans/days/${day}`, { body: {} });
      onChanged();
    });
  const accept = (version: number) =>
    send(async () => {
      const asked = { body: {}, ifMatch: version };
      await service.send('POST', `/plans/days/${day}/acceptance`, asked).finally(onChanged);
    });
  const isOpen = plan !== undefined && plan.acceptedAt === null && plan.routes.length > 0;
  return (
    <div class="no-print">
      <FailureLine failure={failure} />
      <p class="buttons">
        {isOpen && (
          <button
            type="button"
            class="lead"
            aria-disabled={isSending}
            onClick={() => accept(plan.version)}
          >
            {DAY_WORDS.accept}
          </button>
        )}
        <button
          type="button"
          class={plan === undefined ? 'lead' : undefined}
          aria-disabled={isSending}
          onClick={make}
        >
          {isSending ? DAY_WORDS.making : plan === undefined ? DAY_WORDS.make : DAY_WORDS.makeAnew}
        </button>
      </p>
    </div>
  );
}
