import {
  type CheckAction,
  DEFAULT_RATES,
  type ExpectedFaults,
  type FunctionName,
  type LocateRequest,
  officeChecksAboutCauses,
  type RequestLook,
} from '#app/locator/index.js';
import type { WorldFault } from '#app/locator/worlds/index.js';
import { toEvidence } from '#app/locating/evidence.js';
import { DEFAULT_PLAN } from '#app/plan/default-plan.js';
import { missedChance } from '#app/plan/look-errors.js';
import { STATION_MODES } from '#app/plan/modes.js';
import { askFirst } from '#app/reports/ask-first.js';
import type { Heard } from '#app/reports/observation.js';
import { askedAlready, lookAnswered, questionOf } from '#app/reports/office-questions.js';
import { nameNodesOf } from '#app/sites/drawing.js';
import type { EndedStep } from '#app/tickets/ticket-log.js';
import type { SiteCheck } from '#app/walks/walk-checks.js';
import { drawOutcome, MONTH_DAYS } from './generator.js';
import { chanceOf, type Part, WORDS } from './on-site.js';
import { type Point, readerOf, type Trouble } from './troubles.js';

/** Kept short: the office is asked what is offered, and once more after its answers. */
const ROUNDS_ON_THE_TELEPHONE = 2;
/** Looking at something beside the desk, or sending somebody to a room. */
const MINUTES_OF_A_QUESTION = 2;

/** What is known of a trouble: what was said, what was looked at. */
export class Known {
  officeMinutes = 0;
  faults: readonly WorldFault[];
  private heard: readonly Heard[];
  private looks: RequestLook[] = [];
  /** Endings of steps that are no evidence of the locator's, since the last mending. */
  seen: EndedStep[] = [];
  private readonly opened = new Set<string>();
  private readonly madeAnew = new Set<string>();
  private mendings = 0;

  constructor(readonly trouble: Trouble) {
    this.heard = trouble.heard;
    this.faults = trouble.faults;
  }

  get request(): LocateRequest {
    const { request } = toEvidence(this.trouble.drawing, this.heard, null);
    return { ...request, looks: this.looks, exposureDays: MONTH_DAYS };
  }

  /** What was mended is as if proven good just now, the record says. */
  get expected(): ExpectedFaults {
    const years = MONTH_DAYS / 365.25;
    const table = (part: Part, rates: Readonly<Record<string, number>>, scale = 1) => {
      if (this.madeAnew.has(JSON.stringify(part))) return {};
      return Object.fromEntries(
        Object.entries(rates).map(([m, rate]) => [m, scale * rate * years]),
      );
    };
    const { headEnd, port, station, junction, cablePerMetre } = DEFAULT_RATES;
    return {
      headEnd: table({ place: { kind: 'head-end' }, component: 'head-end' }, headEnd),
      trunks: this.trouble.drawing.trunks.map(({ trunk, nodes }) => ({
        id: trunk,
        port: table({ place: { kind: 'port', trunk }, component: 'port' }, port),
        nodes: nodes.map(({ node, fedFrom, cableMetres }) => {
          const place = { kind: 'span', trunk, from: fedFrom, to: node } as const;
          return {
            id: node,
            junctionOut: table({ place, component: 'junction-out' }, junction),
            cable: table({ place, component: 'cable' }, cablePerMetre, cableMetres),
            junctionIn: table({ place, component: 'junction-in' }, junction),
            station: table(
              { place: { kind: 'station', trunk, node }, component: 'station' },
              station,
            ),
          };
        }),
      })),
    };
  }

  wasOpen(part: Part): boolean {
    return this.opened.has(JSON.stringify(part));
  }

  askOffice(): void {
    const nameNode = nameNodesOf(this.trouble.drawing, WORDS);
    for (const { question } of askFirst(this.heard, new Map(), nameNode, WORDS))
      this.answer(question);
    for (let round = 0; round < ROUNDS_ON_THE_TELEPHONE; round++) {
      const lookedAt = askedAlready(this.looks, []);
      const offered = officeChecksAboutCauses({ request: this.request, lookedAt });
      for (const { action, minutes } of offered) this.tell(action, minutes);
    }
  }

  private tell(action: CheckAction, minutes: number): void {
    const question = questionOf(action);
    if (question !== null) return this.answer(question);
    if (action.kind !== 'function') throw new Error(`the office cannot do ${action.kind}`);
    this.officeMinutes += minutes;
    this.say(action, 'office', 'the office');
  }

  /** What the office sees of a setting or a knob; a knob is turned up. */
  private answer(question: string): void {
    const look = lookAnswered(question, 'no');
    if (look === null) return;
    this.officeMinutes += MINUTES_OF_A_QUESTION;
    const { place, part, group } = look;
    const mode = group === null ? part : `${part}:${group}`;
    const fault = this.faults.find(
      (one) => one.mode === mode && JSON.stringify(one.place) === JSON.stringify(place),
    );
    const { errors } = this.trouble.generator;
    const seen = chanceOf(this.trouble.seed, `asked ${question}`)();
    const missed = missedChance(DEFAULT_PLAN, 'office', part, part) ?? 0;
    const isSeen = fault === undefined ? seen < FALSELY_FAULTY * errors : seen >= missed * errors;
    if (isSeen && fault !== undefined && part === 'volume-down')
      this.faults = this.faults.filter((one) => one !== fault);
    const informant = { kind: 'office' } as const;
    const what = { place, part, ...(group !== null && { group }) };
    this.looks.push({ ...what, seen: isSeen ? 'faulty' : 'sound', informant } as RequestLook);
  }

  private say(point: Point, kind: Heard['saidByKind'], saidBy: string): void {
    const { trunk, node, function: name } = point;
    const condition = readerOf(this.trouble.truth)({ faults: this.faults }).condition(
      trunk,
      node,
      name,
    );
    const random = chanceOf(this.trouble.seed, `says ${this.mendings} ${trunk} ${node} ${name}`);
    const outcome = drawOutcome(kind, condition, this.trouble.generator, random);
    this.add({ trunk, node, function: name }, outcome, kind, saidBy);
  }

  private add(point: Point, outcome: Heard['outcome'], kind: Heard['saidByKind'], saidBy: string) {
    const [first] = this.trouble.heard;
    const { trunk, node, function: name } = point;
    const one: Heard = {
      ...first!,
      id: `later ${this.heard.length}`,
      trunk,
      node,
      function: name,
      outcome,
      saidBy,
      saidByKind: kind,
      how: 'gone-through',
    };
    this.heard = [...this.heard, one];
  }

  /** What came of a check is entered: as heard in a room, else as the ending of the step. */
  heardAt({ key }: SiteCheck, outcome: number): void {
    const [kind, trunk, node, name] = JSON.parse(key) as [string, string, string, FunctionName];
    if (kind !== 'room') {
      this.seen.push({ check: key, ending: outcome });
      return;
    }
    const heard = (['works', 'weak', 'fails'] as const)[outcome]!;
    this.add({ trunk, node, function: name }, heard, 'technician', 'the technician');
  }

  foundSound({ place, component }: Part): void {
    this.opened.add(JSON.stringify({ place, component }));
    const parts =
      place.kind === 'station'
        ? ['unit', ...SETTINGS]
        : place.kind === 'head-end'
          ? Object.keys(DEFAULT_PLAN.headEnd)
          : [place.kind === 'port' ? DEFAULT_PLAN.port : component];
    const informant = { kind: 'technician' } as const;
    for (const part of parts)
      this.looks.push({ place, part, seen: 'sound', informant } as RequestLook);
  }

  /** Something was mended, and the office says again of all that it told how it is now. */
  mended(part: Part, left: readonly WorldFault[]): void {
    this.opened.add(JSON.stringify(part));
    this.mendings++;
    this.faults = left;
    const before = this.trouble.heard;
    this.heard = [];
    this.seen = [];
    this.looks = this.looks.filter((one) => !isOf(one, part));
    this.madeAnew.add(JSON.stringify(part));
    for (const one of before) this.say(one, 'office', 'the office');
  }
}

const FALSELY_FAULTY = DEFAULT_PLAN.looks.office.false;
/** What is looked at by itself at a station; the unit shows the rest. */
const SETTINGS = STATION_MODES.filter((mode) => 'isSetting' in DEFAULT_PLAN.station[mode]);

function isOf({ place, part }: RequestLook, mended: Part): boolean {
  if (JSON.stringify(place) !== JSON.stringify(mended.place)) return false;
  return place.kind !== 'span' || part === mended.component;
}
