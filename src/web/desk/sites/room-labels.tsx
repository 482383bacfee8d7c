import { useEffect, useMemo, useState } from 'preact/hooks';
import { stationName } from '../../parts/drawing/drawing-words.js';
import type { ReadDrawnRecord, ReadFirm, ReadSite } from '../../parts/wire.js';
import { labelsOf, MOST_LABELS, type RoomLabel } from './labels-of.js';
import { RECORD_WORDS } from '../words/words.js';

interface LabelsProps {
  site: ReadSite;
  trunks: ReadDrawnRecord['trunks'];
  firm: ReadFirm;
  /** What the codes begin with; null: nobody has set it. */
  publicAddress: string | null;
}

/** A label for each unit; its code opens that room in the technicians' pages. */
export function RoomLabels({ site, trunks, firm, publicAddress }: LabelsProps) {
  const words = RECORD_WORDS.print;
  const begins = publicAddress ?? location.origin;
  const { labels, more } = useMemo(
    () => labelsOf(trunks, `${begins}/field/at/${site.id}`),
    [trunks, site.id, begins],
  );
  const codes = useCodes(labels);
  return (
    <>
      <p class="no-print hint">{words.labelsHint(begins)}</p>
      {publicAddress === null && <p class="no-print notice">{words.labelsNotPublic}</p>}
      {more > 0 && <p class="no-print">{words.labelsMore(MOST_LABELS, more)}</p>}
      <ul class="labels">
        {labels.map(({ trunk, node, link }) => (
          <li key={link}>
            <Code svg={codes.get(link)} />
            <div>
              <strong>{stationName(node)}</strong>
              <span>{site.name}</span>
              <span>
                {[`${trunk} ${node.node}`, node.block, node.floor].filter(Boolean).join(', ')}
              </span>
              <span>{[firm.name, firm.phone].filter(Boolean).join(', ')}</span>
            </div>
          </li>
        ))}
      </ul>
    </>
  );
}

function Code({ svg }: { svg: string | undefined }) {
  if (svg === undefined) return <span class="label-code" />;
  return (
    <img
      class="label-code"
      alt=""
      width={120}
      height={120}
      src={`data:image/svg+xml,${encodeURIComponent(svg)}`}
    />
  );
}

/** What makes the codes comes when they are wanted. */
function useCodes(labels: readonly RoomLabel[]): ReadonlyMap<string, string> {
  const [codes, setCodes] = useState<ReadonlyMap<string, string>>(new Map());
  useEffect(() => {
    let isWanted = true;
    void (async () => {
      const { toString } = await import('qrcode');
      const made = new Map<string, string>();
      for (const { link } of labels) {
        made.set(link, await toString(link, { type: 'svg', margin: 2 }));
        if (!isWanted) return;
      }
      setCodes(made);
    })();
    return () => {
      isWanted = false;
    };
  }, [labels]);
  return codes;
}
