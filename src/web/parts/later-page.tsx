import type { ComponentType } from 'preact';
import { Failure } from './failure.js';
import { PAGE_WORDS } from './language.js';
import { Loaded } from './states.js';
import { useRead } from './use-read.js';

/** A page whose file is loaded when it is opened: who never opens it does not wait for it. */
export function laterPage<Props extends object>(
  load: () => Promise<ComponentType<Props>>,
): ComponentType<Props> {
  return function LaterPage(props) {
    const read = useRead('page', () =>
      load().then(
        (Page) => ({ Page }),
        () => {
          throw new Failure(0, PAGE_WORDS.notReached);
        },
      ),
    );
    return <Loaded read={read}>{({ Page }) => <Page {...props} />}</Loaded>;
  };
}
