import { longDay } from '../../parts/time-words.js';
import { lastDay } from '../contracts/contract-sentences.js';
import { type ClosedTimes, countDays } from './closed-days-draft.js';
import { CLOSED_DAYS_WORDS } from '../words/words.js';

interface ClosedTimesTableProps {
  times: ClosedTimes;
  /** Told which one, by its place. */
  onTakeOut?: (index: number) => void;
}

export function ClosedTimesTable({ times, onTakeOut }: ClosedTimesTableProps) {
  const words = CLOSED_DAYS_WORDS;
  if (times.length === 0) return <p>{words.closesNothing}</p>;
  const heads = [words.first, words.last, words.what];
  return (
    <div class="scrolls" tabIndex={0} role="region" aria-label={words.willClose}>
      <table>
        <caption>{words.closes(times.length, countDays(times))}</caption>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
            {onTakeOut !== undefined && (
              <th scope="col">
                <span class="unseen">{words.takeOut}</span>
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {times.map(({ from, until, name }, index) => (
            <tr key={`${from} ${until} ${name}`}>
              <td>{longDay(from)}</td>
              <td>{lastDay(until)}</td>
              <td>{name}</td>
              {onTakeOut !== undefined && (
                <td>
                  <button type="button" class="small" onClick={() => onTakeOut(index)}>
                    {words.takeOut}
                    <span class="unseen">
                      {' '}
                      {longDay(from)}, {name}
                    </span>
                  </button>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
