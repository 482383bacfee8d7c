import { useEffect, useMemo } from 'preact/hooks';
import { today } from '../../parts/local-day.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { Desk, ReadDayPlan, ReadSite, ReadWorkingTime } from '../../parts/wire.js';
import { useLive } from '../use-live.js';
import { MapDrawing } from './map-drawing.js';
import { mapFacts, type MapRead } from './map-facts.js';
import { LeftOutOfWays, SitesOfMap, StartsOfMap } from './map-tables.js';
import { DESK_WORDS, MAP_WORDS } from '../words/words.js';

/** Where the firm's sites lie, what is silent there and how urgent it is, and who goes there today. */
export function MapPage() {
  const service = useService();
  const day = today();
  const read = useRead(`map of ${day}`, () => readMap(service, day));
  useLive(read.again);
  useEffect(() => {
    document.title = MAP_WORDS.title;
  }, []);
  return <Loaded read={read}>{(known) => <SitesMap known={known} day={day} />}</Loaded>;
}

async function readMap(service: Service, day: string): Promise<MapRead> {
  const isOffice = service.session.person.role !== 'technician';
  const [sites, desk, times, plan] = await Promise.all([
    service.list<ReadSite>('/sites'),
    service.read<Desk>('/desk'),
    isOffice ? service.read<{ items: ReadWorkingTime[] }>('/working-times') : { items: [] },
    service.find<ReadDayPlan>(`/plans/days/${day}`),
  ]);
  return { sites: sites.items, desk, technicians: times.items, plan };
}

function SitesMap({ known, day }: { known: MapRead; day: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const facts = useMemo(() => mapFacts(known), [known]);
  const { placed, unplaced } = facts;
  const now = new Date(known.desk.readAt);
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {MAP_WORDS.title}
        </h1>
        <a class="no-print" href="/desk/sites">
          {DESK_WORDS.sites}
        </a>
        <a class="no-print" href={`/desk/days/${day}`}>
          {MAP_WORDS.theDay}
        </a>
      </div>
      {known.desk.more > 0 && <p>{DESK_WORDS.moreThanShown(known.desk.more)}</p>}
      {known.plan === undefined && <p class="hint">{MAP_WORDS.notPlanned}</p>}
      {placed.length === 0 ? (
        <p class="empty">{MAP_WORDS.nonePlaced}</p>
      ) : (
        <MapDrawing facts={facts} now={now} />
      )}
      {placed.length > 0 && <LeftOutOfWays starts={facts.starts} />}
      {placed.length > 0 && <SitesOfMap label={MAP_WORDS.asTable} sites={placed} now={now} />}
      <StartsOfMap starts={facts.starts} />
      {unplaced.length > 0 && (
        <section>
          <h2>{MAP_WORDS.unplaced}</h2>
          <p class="hint">{MAP_WORDS.unplacedHint}</p>
          <SitesOfMap label={MAP_WORDS.unplaced} sites={unplaced} now={now} />
        </section>
      )}
    </article>
  );
}
