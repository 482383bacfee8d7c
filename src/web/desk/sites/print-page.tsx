import { useEffect, useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import { TrunkDrawing } from '../../parts/drawing/trunk-drawing.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadDrawnRecord, ReadFirm, ReadPublicAddress, ReadSite } from '../../parts/wire.js';
import { RoomLabels } from './room-labels.js';
import { RECORD_WORDS, SITE_WORDS } from '../words/words.js';

interface PrintRead {
  site: ReadSite;
  record: ReadDrawnRecord;
  firm: ReadFirm;
  publicAddress: string | null;
}

const WHAT = ['plan', 'labels'] as const;
type What = (typeof WHAT)[number];

/** The plan of a site for paper, and the labels of its rooms. */
export function PrintPage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`print of ${id}`, async (): Promise<PrintRead> => {
    const [site, record, firm, { address }] = await Promise.all([
      service.read<ReadSite>(`/sites/${id}`),
      service.read<ReadDrawnRecord>(`/sites/${id}/as-built`),
      service.read<ReadFirm>('/firm'),
      service.read<ReadPublicAddress>('/public-address'),
    ]);
    return { site, record, firm, publicAddress: address };
  });
  return <Loaded read={read}>{(known) => <Printed {...known} />}</Loaded>;
}

function Printed({ site, record, firm, publicAddress }: PrintRead) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const words = RECORD_WORDS.print;
  const [what, setWhat] = useState<What>('plan');
  const [trunk, setTrunk] = useState('');
  const title = words.title(site.name);
  useEffect(() => {
    document.title = title;
  }, [title]);
  const trunks = record.trunks.filter((one) => trunk === '' || one.trunk === trunk);
  return (
    <article class="paper">
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {site.name}
        </h1>
        <a class="no-print" href={`/desk/sites/${site.id}`}>
          {RECORD_WORDS.backToSite}
        </a>
      </div>
      <div class="no-print">
        <ChooseField
          label={words.what}
          value={what}
          choices={WHAT.map((value) => ({ value, words: words[value] }))}
          onValue={(value) => setWhat(value as What)}
        />
        {record.trunks.length > 1 && (
          <ChooseField
            label={RECORD_WORDS.whichTrunk}
            value={trunk}
            choices={[
              { value: '', words: words.allTrunks },
              ...record.trunks.map((one) => ({ value: one.trunk, words: one.trunk })),
            ]}
            onValue={setTrunk}
          />
        )}
        <button type="button" class="main" onClick={() => print()}>
          {SITE_WORDS.print}
        </button>
      </div>
      {record.trunks.length === 0 && <p>{SITE_WORDS.nothingDrawn}</p>}
      {what === 'plan' ? (
        <>
          <p>{SITE_WORDS.version(record.version, record.changedBy, record.reason)}</p>
          <TrunkDrawing cables={trunks} said={NOTHING_SAID} />
        </>
      ) : (
        <RoomLabels site={site} trunks={trunks} firm={firm} publicAddress={publicAddress} />
      )}
    </article>
  );
}

const NOTHING_SAID: [] = [];
