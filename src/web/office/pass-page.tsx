import { useEffect, useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OverPage } from './over-page.js';
import { OFFICE_WORDS } from './own-words.js';
import { SitePage } from './site-page.js';
import type { Sitting } from './sitting.js';
import type { PassSite } from '../parts/wire.js';

/** Opens the sitting, and shows the site or why there is none to show. */
export function PassPage({ sitting }: { sitting: Sitting }) {
  const [site, setSite] = useState<PassSite>();
  const [failure, setFailure] = useState<Failure>();

  const fail = (error: unknown) => {
    if (!(error instanceof Failure)) throw error;
    setFailure(error);
  };
  const open = () => {
    setFailure(undefined);
    sitting.open().then(setSite, fail);
  };
  useEffect(open, [sitting]);
  useEffect(() => {
    if (site !== undefined) document.title = OFFICE_WORDS.title(site.name);
  }, [site]);

  if (failure !== undefined) return <OverPage failure={failure} onAgain={open} />;
  if (site === undefined) return <p role="status">{PAGE_WORDS.oneMoment}</p>;
  return (
    <SitePage sitting={sitting} site={site} onSite={setSite} onOver={(over) => setFailure(over)} />
  );
}
