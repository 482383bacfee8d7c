import { useEffect, useState } from 'preact/hooks';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import { useSending } from '../../parts/use-sending.js';
import type { NewSitePass, ReadFirm, ReadSite } from '../../parts/wire.js';
import { POSTER_WORDS } from './poster-words.js';
import { SITE_WORDS } from '../words/words.js';

interface Sender {
  name: string;
  phone: string;
}

/** The poster of a site's office, on one sheet of paper. */
export function PosterPage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`poster ${id}`, async () => {
    const [site, firm] = await Promise.all([
      service.read<ReadSite>(`/sites/${id}`),
      service.read<ReadFirm>('/firm'),
    ]);
    return { site, firm };
  });
  return <Loaded read={read}>{(known) => <PosterMaking {...known} />}</Loaded>;
}

function PosterMaking({ site, firm }: { site: ReadSite; firm: ReadFirm }) {
  const service = useService();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  // As the firm has it; a poster may have a number of its own.
  const [sender, setSender] = useState<Sender>({ name: firm.name, phone: firm.phone ?? '' });
  const [pass, setPass] = useState<NewSitePass>();
  useEffect(() => {
    document.title = `${SITE_WORDS.poster}: ${site.name}`;
  }, [site.name]);
  const { isSending, failure, send } = useSending();
  const make = () =>
    send(async () =>
      setPass(await service.send<NewSitePass>('POST', `/sites/${site.id}/passes`, { body: {} })),
    );
  return (
    <>
      <section class="narrow no-print">
        <h1 tabIndex={-1} ref={heading}>
          {SITE_WORDS.poster}: {site.name}
        </h1>
        <p>
          <a href={`/desk/sites/${site.id}`}>{SITE_WORDS.back}</a>
        </p>
        <TextField
          label={SITE_WORDS.firmName}
          autocomplete="organization"
          value={sender.name}
          onValue={(name) => setSender({ ...sender, name })}
        />
        <TextField
          label={SITE_WORDS.phone}
          autocomplete="tel"
          value={sender.phone}
          onValue={(phone) => setSender({ ...sender, phone })}
        />
        <FailureLine failure={failure} />
        {pass === undefined ? (
          <button type="button" class="main" aria-disabled={isSending} onClick={make}>
            {SITE_WORDS.posterMake}
          </button>
        ) : (
          <>
            {pass.linkWarning !== null && <p class="notice">{pass.linkWarning}</p>}
            <p>{SITE_WORDS.posterOnce}</p>
            <button type="button" class="main" onClick={() => print()}>
              {SITE_WORDS.print}
            </button>
          </>
        )}
      </section>
      {pass !== undefined && <Poster site={site} pass={pass} sender={sender} />}
    </>
  );
}

function Poster({ site, pass, sender }: { site: ReadSite; pass: NewSitePass; sender: Sender }) {
  return (
    <section class="poster" aria-label={SITE_WORDS.poster}>
      <p class="poster-site">{site.name}</p>
      {POSTER_WORDS.map(({ language, silent, scan }) => (
        <p key={language} lang={language}>
          <strong>{silent}</strong> {scan}
        </p>
      ))}
      <img
        alt=""
        width={420}
        height={420}
        src={`data:image/svg+xml,${encodeURIComponent(pass.qrSvg)}`}
      />
      <p class="poster-link">{pass.link}</p>
      {sender.phone !== '' && (
        <p class="poster-phone">
          {SITE_WORDS.orRing} {sender.phone}
        </p>
      )}
      <p>{sender.name}</p>
    </section>
  );
}
