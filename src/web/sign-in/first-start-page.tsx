import { useState } from 'preact/hooks';
import { ask } from '../parts/ask.js';
import { Service } from '../parts/service.js';
import { Loaded } from '../parts/states.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useRead } from '../parts/use-read.js';
import { FirstOwnerForm } from './first-owner-form.js';
import { FirstSiteForm } from './first-site-form.js';
import { SIGN_IN_WORDS } from './sign-in-words.js';

/** Makes the first owner, by the code in the service's log, and then the first site. */
export function FirstStartPage({ code }: { code: string | undefined }) {
  const [service, setService] = useState<Service>();
  const [over, setOver] = useState<string>();
  const words = SIGN_IN_WORDS.firstStart;
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
          <NotOpen reason={isOpen ? words.noCode : words.hasBegun} />
        )
      }
    </Loaded>
  );
}

function NotOpen({ reason }: { reason: string }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="card">
      <h1 tabIndex={-1} ref={heading}>
        {SIGN_IN_WORDS.firstStart.title}
      </h1>
      <p>{reason}</p>
      <p>
        <a href="/sign-in">{SIGN_IN_WORDS.signIn}</a>
      </p>
    </section>
  );
}
