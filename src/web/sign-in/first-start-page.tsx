import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Service } from '../parts/service.js';
import { Loaded } from '../parts/states.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useRead } from '../parts/use-read.js';
import { FirstOwnerForm } from './first-owner-form.js';
import { FirstSiteForm } from './first-site-form.js';

/** Makes the first owner, by the code in the service's log, and then the first site. */
export function FirstStartPage({ code }: { code: string | undefined }) {
  const [service, setService] = useState<Service>();
  const [over, setOver] = useState<string>();
  const read = useRead('first start', () => ask<{ isOpen: boolean }>('GET', '/first-start'));
  if (service !== undefined) return <FirstSiteForm service={service} />;
  if (over !== undefined) return <NotOpen reason={over} />;
  return (
    <Loaded read={read}>
      {({ isOpen }) =>
        isOpen && code !== undefined ? (
          <FirstOwnerForm
            code={code}
            onOver={setOver}
            onIn={(session) => setService(new Service(session, () => location.assign('/sign-in')))}
          />
        ) : (
          <NotOpen reason={isOpen ? NO_CODE : HAS_BEGUN} />
        )
      }
    </Loaded>
  );
}

const NO_CODE =
  'Nobody can sign in here yet. The first owner is made by the link that the service wrote to its log when it was started; open that.';
const HAS_BEGUN = 'Somebody can sign in here already, or the link is of an earlier start.';

function NotOpen({ reason }: { reason: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        The first start
      </h1>
      <p>{reason}</p>
      <p>
        <a href="/sign-in">Sign in</a>
      </p>
    </section>
  );
}
