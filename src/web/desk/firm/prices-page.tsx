import { useEffect } from 'preact/hooks';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadPrices } from '../../parts/wire.js';
import { CorrectionEnd, useCorrection } from '../correction.js';
import {
  type PartPriceDraft,
  posePrices,
  pricedParts,
  type PricesDraft,
  pricesDraft,
  withPart,
} from './prices-draft.js';
import { PRICES_WORDS } from '../words/words.js';

const PATH = '/prices';

/** What work, ways and parts cost the firm: by them is reckoned what contracts cost and should cost. */
export function PricesPage() {
  const service = useService();
  const { role } = service.session.person;
  const isKeeper = role === 'owner' || role === 'contract-manager';
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const read = useRead('prices', async () =>
    isKeeper ? service.read<ReadPrices>(PATH) : undefined,
  );
  useEffect(() => {
    document.title = PRICES_WORDS.title;
  }, []);
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {PRICES_WORDS.title}
      </h1>
      <p>{PRICES_WORDS.hint}</p>
      {isKeeper ? (
        <Loaded read={read}>{(prices) => prices && <PricesForm prices={prices} />}</Loaded>
      ) : (
        <p>{PRICES_WORDS.notKeeper}</p>
      )}
    </article>
  );
}

function PricesForm({ prices }: { prices: ReadPrices }) {
  const service = useService();
  const words = PRICES_WORDS;
  const correction = useCorrection<PricesDraft, ReadPrices>({
    method: 'PATCH',
    path: PATH,
    source: prices,
    draftOf: pricesDraft,
    pose: (draft) => posePrices(draft, words.amount),
    readAgain: () => service.read<ReadPrices>(PATH),
  });
  const { typed, failed, save } = correction;
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const line = (name: 'currency' | 'hour' | 'travelHour', field: string) => (
    <TextField
      label={words.of[name]}
      {...(name === 'currency' && { hint: words.currencyHint })}
      autocomplete="off"
      value={typed.draft[name]}
      onValue={(value) => typed.give({ [name]: value })}
      error={failed?.sentenceFor(field)}
    />
  );
  return (
    <form onSubmit={save} noValidate ref={form}>
      {typed.source.version === 0 && <p class="notice">{words.nothing}</p>}
      <div class="fields">
        {line('currency', '/currency')}
        {line('hour', '/hourMinor')}
        {line('travelHour', '/travelHourMinor')}
      </div>
      <PartPrices
        draft={typed.draft}
        give={(parts) => typed.give({ parts })}
        wrong={(field) => failed?.sentenceFor(field)}
      />
      <CorrectionEnd
        correction={correction}
        shown={['/currency', '/hourMinor', '/travelHourMinor', '/parts']}
        nameOf={(field) => words.of[field]}
      />
    </form>
  );
}

interface PartPricesProps {
  draft: PricesDraft;
  give: (parts: PricesDraft['parts']) => void;
  wrong: (field: string) => string | undefined;
}

function PartPrices({ draft, give, wrong }: PartPricesProps) {
  const words = PRICES_WORDS;
  const sent = pricedParts(draft).map(({ key }) => key);
  const shown = Object.entries(draft.parts).flatMap(([key, part]) =>
    part === undefined ? [] : [{ key, part }],
  );
  return (
    <fieldset>
      <legend>{words.of.parts}</legend>
      <p class="hint">{words.partsHint}</p>
      {shown.map(({ key, part }, index) => (
        <PartPrice
          key={key}
          part={part}
          nth={index + 1}
          onPart={(next) => give({ ...draft.parts, [key]: next })}
          wrong={(field) => wrong(`/parts/${sent.indexOf(key)}/${field}`)}
        />
      ))}
      <button type="button" onClick={() => give(withPart(draft.parts))}>
        {words.add}
      </button>
    </fieldset>
  );
}

interface PartPriceProps {
  part: PartPriceDraft;
  nth: number;
  /** Undefined takes it off. */
  onPart: (part: PartPriceDraft | undefined) => void;
  wrong: (field: 'name' | 'minor') => string | undefined;
}

function PartPrice({ part, nth, onPart, wrong }: PartPriceProps) {
  const words = PRICES_WORDS;
  return (
    <div class="part-price" role="group" aria-label={words.part(nth)}>
      <TextField
        label={words.partName}
        autocomplete="off"
        maxLength={200}
        value={part.name}
        onValue={(name) => onPart({ ...part, name })}
        error={wrong('name')}
      />
      <TextField
        label={words.partPrice}
        autocomplete="off"
        value={part.price}
        onValue={(price) => onPart({ ...part, price })}
        error={wrong('minor')}
      />
      <button type="button" class="small" onClick={() => onPart(undefined)}>
        {words.remove}
        <span class="unseen"> {part.name}</span>
      </button>
    </div>
  );
}
