import { useEffect, useMemo, useState } from 'preact/hooks';
import type { NodeAt } from '../../parts/drawing/trunk-drawing.js';
import { TrunkDrawing } from '../../parts/drawing/trunk-drawing.js';
import { stationName } from '../../parts/drawing/drawing-words.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { shortDay } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import { useSending } from '../../parts/use-sending.js';
import type {
  FoundAtSiteList,
  ReadDrawnRecord,
  ReadListedTicket,
  ReadSite,
  ReadSiteCover,
  ReadSitePass,
} from '../../parts/wire.js';
import { asHeadline } from '../desk-words.js';
import { SiteCover } from '../contracts/site-cover.js';
import { SiteFound, useFound } from './site-found.js';
import { HeadEndForm } from './head-end-form.js';
import { SheetForm } from './sheet-form.js';
import { BOOK_VISIT_WORDS, FEED_WORDS, RECORD_WORDS, SITE_WORDS } from '../words/words.js';

interface SiteRead {
  site: ReadSite;
  record: ReadDrawnRecord;
  tickets: ReadListedTicket[];
  passes: ReadSitePass[];
  cover: ReadSiteCover;
  found: FoundAtSiteList;
}

/** How a site is built, what is open there, and who may report from it. */
export function SitePlacePage({ id = '' }: { id?: string }) {
  const service = useService();
  const isOffice = service.session.person.role !== 'technician';
  const read = useRead(`site ${id}`, async () => {
    const [site, record, tickets, passes, cover, found] = await Promise.all([
      service.read<ReadSite>(`/sites/${id}`),
      service.read<ReadDrawnRecord>(`/sites/${id}/as-built`),
      service.list<ReadListedTicket>(`/tickets?site=${id}&open=true`),
      isOffice ? service.read<{ items: ReadSitePass[] }>(`/sites/${id}/passes`) : { items: [] },
      service.read<ReadSiteCover>(`/sites/${id}/cover`),
      service.read<FoundAtSiteList>(`/sites/${id}/findings`),
    ]);
    return { site, record, tickets: tickets.items, passes: passes.items, cover, found };
  });
  return <Loaded read={read}>{(all) => <SiteView {...all} onChanged={read.again} />}</Loaded>;
}

function SiteView(props: SiteRead & { onChanged: () => void }) {
  const { site, record, tickets, onChanged } = props;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const isOffice = useService().session.person.role !== 'technician';
  useEffect(() => {
    document.title = site.name;
  }, [site.name]);
  const { version } = record;
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {site.name}
      </h1>
      <p>{site.address}</p>
      {site.servesEmergencyCalls && <p class="notice">{SITE_WORDS.emergency}</p>}
      {site.safetyNotes !== null && <p class="notice">{site.safetyNotes}</p>}
      <h2>{SITE_WORDS.drawn}</h2>
      {record.trunks.length === 0 ? <p>{SITE_WORDS.nothingDrawn}</p> : <Drawn {...props} />}
      {record.trunks.length > 0 && <HeadEndForm record={record} onSaved={onChanged} />}
      <div class="columns">
        <SheetForm site={site} version={version} onSaved={onChanged} />
        <section>
          <h2>{SITE_WORDS.tickets}</h2>
          {tickets.length === 0 && <p>{SITE_WORDS.noTickets}</p>}
          <ul class="plain">
            {tickets.map(({ id, number, likeliest }) => (
              <li key={id}>
                <a href={`/desk/tickets/${number}`}>{number}</a>{' '}
                {asHeadline(likeliest?.words ?? '')}
              </li>
            ))}
          </ul>
        </section>
        <SiteCover cover={props.cover} isOffice={isOffice} />
        {isOffice && (
          <p class="line-up">
            <a class="button" href={`/desk/visits/new?site=${site.id}`}>
              {BOOK_VISIT_WORDS.title}
            </a>
            <a href={`/desk/calendar-links?site=${site.id}`}>{FEED_WORDS.title}</a>
          </p>
        )}
        {isOffice && <Passes {...props} />}
      </div>
    </article>
  );
}

/** The drawing, with what was ever found at each place, and the ways to change it. */
function Drawn({ site, record, ...props }: SiteRead) {
  const [chosen, setChosen] = useState<NodeAt>();
  const nothing = useMemo(() => [], []);
  const found = useFound(props.found, site.zone);
  const { version, changedBy, reason } = record;
  return (
    <>
      <p class="soft">{SITE_WORDS.version(version, changedBy, reason)}</p>
      <TrunkDrawing
        cables={record.trunks}
        said={nothing}
        found={found.atNodes}
        chosen={chosen}
        onChoose={setChosen}
      />
      {chosen !== undefined && <NodeFactsLine record={record} at={chosen} />}
      <SiteFound {...found} {...{ record, chosen }} found={props.found} zone={site.zone} />
      <p class="buttons">
        <a class="button" href={`/desk/sites/${site.id}/record`}>
          {RECORD_WORDS.edit}
        </a>
        <a href={`/desk/sites/${site.id}/versions`}>{RECORD_WORDS.versions}</a>{' '}
        <a href={`/desk/sites/${site.id}/print`}>{RECORD_WORDS.print.open}</a>
      </p>
    </>
  );
}

/** What the record says of one place. */
function NodeFactsLine({ record, at }: { record: ReadDrawnRecord; at: NodeAt }) {
  const trunk = record.trunks.find((one) => one.trunk === at.trunk);
  const node = trunk?.nodes.find((one) => one.node === at.node);
  if (node === undefined) return null;
  const facts = [
    node.node,
    node.block,
    node.floor,
    `${node.cableMetres} m${node.isLengthGuessed ? ` (${SITE_WORDS.notMeasured})` : ''}`,
    node.cableType,
    node.unitModel,
    node.unitSerial,
    node.unitInstalledOn,
    node.groups.join(', '),
  ];
  return (
    <p role="status">
      <strong>{stationName(node)}</strong>: {facts.filter(Boolean).join('; ')}
    </p>
  );
}

function Passes({ site, passes, onChanged }: SiteRead & { onChanged: () => void }) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const end = (id: string) =>
    send(async () => {
      await service.send('POST', `/passes/${id}/end`);
      onChanged();
    });
  return (
    <section>
      <h2>{SITE_WORDS.passes}</h2>
      <p class="hint">{SITE_WORDS.passesHint}</p>
      <ul class="plain">
        {passes.map(({ id, createdAt, endedAt }) => (
          <li key={id}>
            {SITE_WORDS.made(shortDay(createdAt.slice(0, 10)))}{' '}
            {endedAt === null ? (
              <button type="button" class="small" aria-disabled={isSending} onClick={() => end(id)}>
                {SITE_WORDS.endPass}
              </button>
            ) : (
              <span class="soft">{SITE_WORDS.ended}</span>
            )}
          </li>
        ))}
      </ul>
      <FailureLine failure={failure} />
      <p>
        <a href={`/desk/sites/${site.id}/poster`}>{SITE_WORDS.makePoster}</a>
      </p>
    </section>
  );
}
