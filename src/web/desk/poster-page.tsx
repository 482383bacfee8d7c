import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import { keepIn } from '../parts/kept.js';
import { useService } from '../parts/service-context.js';
import { Loaded } from '../parts/states.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useRead } from '../parts/use-read.js';
import { useSending } from '../parts/use-sending.js';
import type { NewSitePass, ReadSite } from '../parts/wire.js';
import { POSTER_WORDS, SITE_WORDS } from './site-words.js';

const kept = keepIn(() => localStorage);
const SENDER = 'poster';

interface Sender {
  name: string;
  phone: string;
}

/** The poster of a site's office, on one sheet of paper. */
export function PosterPage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`poster ${id}`, () => service.read<ReadSite>(`/sites/${id}`));
  return <Loaded read={read}>{(site) => <PosterMaking site={site} />}</Loaded>;
}

function PosterMaking({ site }: { site: ReadSite }) {
  const service = useService();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const [sender, setSender] = useState(() => kept.read<Sender>(SENDER) ?? { name: '', phone: '' });
  const [pass, setPass] = useState<NewSitePass>();
  const { isSending, failure, send } = useSending();
  const change = (changed: Sender) => {
    kept.write(SENDER, changed);
    setSender(changed);
  };
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
          onValue={(name) => change({ ...sender, name })}
        />
        <TextField
          label={SITE_WORDS.phone}
          autocomplete="tel"
          value={sender.phone}
          onValue={(phone) => change({ ...sender, phone })}
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
