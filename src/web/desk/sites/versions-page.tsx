import { useLocation } from 'preact-iso';
import { useEffect } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import { type NodeAt, TrunkDrawing } from '../../parts/drawing/trunk-drawing.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { local } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type {
  Listed,
  ReadDrawnRecord,
  ReadSite,
  RecordComparison,
  RecordVersion,
} from '../../parts/wire.js';
import { comparisonInWords } from './comparison-words.js';
import { RECORD_WORDS } from '../words/words.js';

/** So many versions are offered, the newest. */
const MOST_VERSIONS = 200;

interface VersionsRead {
  site: ReadSite;
  versions: Listed<RecordVersion>;
}

/** Any two versions of a site's record, drawn side by side, with what differs. */
export function VersionsPage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`versions of ${id}`, async (): Promise<VersionsRead> => {
    const [site, versions] = await Promise.all([
      service.read<ReadSite>(`/sites/${id}`),
      service.read<Listed<RecordVersion>>(`/sites/${id}/as-built/versions?limit=${MOST_VERSIONS}`),
    ]);
    return { site, versions };
  });
  return <Loaded read={read}>{(all) => <Versions {...all} />}</Loaded>;
}

function Versions({ site, versions }: VersionsRead) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const newest = versions.items[0]?.version ?? 0;
  const { path, query, route } = useLocation();
  const to = versionIn(query.to, newest) ?? newest;
  const from = versionIn(query.from, newest) ?? Math.max(0, newest - 1);
  const show = (one: number, other: number) => route(`${path}?from=${one}&to=${other}`, true);
  const title = RECORD_WORDS.versionsOf(site.name);
  useEffect(() => {
    document.title = title;
  }, [title]);
  const choices = [
    ...versions.items.map(({ version, changedBy, changedAt, reason }) => ({
      value: String(version),
      words: RECORD_WORDS.versionLine(version, changedBy, local(changedAt), reason),
    })),
    { value: '0', words: RECORD_WORDS.versionZero },
  ];
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {title}
        </h1>
        <a href={`/desk/sites/${site.id}/record`}>{RECORD_WORDS.toRecord}</a>
        <a href={`/desk/sites/${site.id}`}>{RECORD_WORDS.backToSite}</a>
      </div>
      {versions.next !== null && <p>{RECORD_WORDS.onlyNewest(versions.items.length)}</p>}
      <div class="narrow">
        <ChooseField
          label={RECORD_WORDS.from}
          value={String(from)}
          choices={choices}
          onValue={(value) => show(Number(value), to)}
        />
        <ChooseField
          label={RECORD_WORDS.to}
          value={String(to)}
          choices={choices}
          onValue={(value) => show(from, Number(value))}
        />
      </div>
      <Compared siteId={site.id} from={from} to={to} />
    </article>
  );
}

/** One that there is, or undefined. */
function versionIn(text: string | undefined, newest: number): number | undefined {
  const version = /^\d{1,9}$/.test(text ?? '') ? Number(text) : NaN;
  return version <= newest ? version : undefined;
}

function Compared({ siteId, from, to }: { siteId: string; from: number; to: number }) {
  const service = useService();
  const at = `/sites/${siteId}/as-built`;
  const read = useRead(`${at} ${from} ${to}`, async () => {
    const [comparison, before, after] = await Promise.all([
      service.read<RecordComparison>(`${at}/compare?from=${from}&to=${to}`),
      service.read<ReadDrawnRecord>(`${at}?version=${from}`),
      service.read<ReadDrawnRecord>(`${at}?version=${to}`),
    ]);
    return { comparison, before, after };
  });
  return <Loaded read={read}>{(all) => <Differences {...all} />}</Loaded>;
}

interface DifferencesProps {
  comparison: RecordComparison;
  before: ReadDrawnRecord;
  after: ReadDrawnRecord;
}

function Differences({ comparison, before, after }: DifferencesProps) {
  const words = comparisonInWords(comparison, { before: before.trunks, after: after.trunks });
  const { nodesAdded, nodesRemoved, nodesChanged } = comparison;
  const changed: NodeAt[] = [...nodesAdded, ...nodesRemoved, ...nodesChanged];
  return (
    <>
      <h2>{RECORD_WORDS.differs}</h2>
      {words.length === 0 && <p role="status">{RECORD_WORDS.nothingDiffers}</p>}
      <ul>
        {words.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
      <div class="both-ways">
        {[before, after].map(({ version, trunks }) => (
          <section key={version}>
            <h2>{RECORD_WORDS.asInVersion(version)}</h2>
            {trunks.length === 0 ? (
              <p>{RECORD_WORDS.nothingDrawn}</p>
            ) : (
              <TrunkDrawing cables={trunks} said={[]} changed={changed} />
            )}
          </section>
        ))}
      </div>
    </>
  );
}
