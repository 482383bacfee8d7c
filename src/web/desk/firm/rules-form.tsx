import { ChooseField } from '../../parts/choose-field.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import type { ReadPlanningRules, ReadSite } from '../../parts/wire.js';
import { CorrectionEnd, useCorrection } from '../correction.js';
import { useDraft } from '../use-draft.js';
import {
  poseRules,
  roadKey,
  roadsOf,
  RULES,
  type RulesDraft,
  rulesDraft,
} from './planning-draft.js';
import { PLANNING_WORDS } from '../words/words.js';

const PATH = '/planning-rules';

interface RulesFormProps {
  rules: ReadPlanningRules;
  sites: readonly ReadSite[];
}

/** How ways and lengths are reckoned; who does not plan reads it. */
export function RulesForm({ rules, sites }: RulesFormProps) {
  const service = useService();
  const { role } = service.session.person;
  const words = PLANNING_WORDS;
  const correction = useCorrection<RulesDraft, ReadPlanningRules>({
    method: 'PATCH',
    path: PATH,
    source: rules,
    draftOf: rulesDraft,
    pose: (draft) => poseRules(draft, words.number),
    readAgain: () => service.read<ReadPlanningRules>(PATH),
  });
  const { typed, failed, save } = correction;
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  if (role !== 'owner' && role !== 'dispatcher') return <RulesRead rules={rules} />;
  return (
    <form onSubmit={save} noValidate ref={form}>
      {typed.source.version === 0 && <p class="hint">{words.usual}</p>}
      <div class="fields">
        {RULES.map((rule) => (
          <TextField
            key={rule}
            label={words.rules[rule]}
            autocomplete="off"
            value={typed.draft[rule]}
            onValue={(value) => typed.give({ [rule]: value })}
            error={failed?.sentenceFor(`/${rule}`)}
          />
        ))}
      </div>
      <Roads
        sites={sites}
        draft={typed.draft}
        give={(roads) => typed.give({ roads })}
        wrong={(field) => failed?.sentenceFor(field)}
      />
      <CorrectionEnd
        correction={correction}
        shown={[...RULES.map((rule) => `/${rule}`), '/roads']}
        nameOf={(field) => words.rules[field]}
      />
    </form>
  );
}

function RulesRead({ rules }: { rules: ReadPlanningRules }) {
  const words = PLANNING_WORDS;
  return (
    <>
      <ul>
        {RULES.map((rule) => (
          <li key={rule}>
            {words.rules[rule]}: {rules[rule]}
          </li>
        ))}
      </ul>
      <p class="hint">{words.notPlanner}</p>
    </>
  );
}

interface RoadsProps {
  sites: readonly ReadSite[];
  draft: RulesDraft;
  give: (roads: RulesDraft['roads']) => void;
  wrong: (field: string) => string | undefined;
}

function Roads({ sites, draft, give, wrong }: RoadsProps) {
  const words = PLANNING_WORDS;
  const nameOf = (id: string | undefined) =>
    sites.find((site) => site.id === id)?.name ?? words.someSite;
  const roads = roadsOf(draft);
  return (
    <fieldset>
      <legend>{words.rules.roads}</legend>
      <p class="hint">{words.roadsHint}</p>
      {roads.map(({ key, km }, index) => {
        const [one, other] = key.split(' ');
        const between = words.between(nameOf(one), nameOf(other));
        return (
          <div class="part-price" key={key}>
            <TextField
              label={between}
              autocomplete="off"
              value={km}
              onValue={(value) => give({ ...draft.roads, [key]: value })}
              error={wrong(`/roads/${index}`)}
            />
            <button
              type="button"
              class="small"
              onClick={() => give({ ...draft.roads, [key]: undefined })}
            >
              {words.remove}
              <span class="unseen"> {between}</span>
            </button>
          </div>
        );
      })}
      <AddRoad sites={sites} roads={draft.roads} give={give} />
    </fieldset>
  );
}

function AddRoad({
  sites,
  roads,
  give,
}: Pick<RoadsProps, 'sites' | 'give'> & Pick<RulesDraft, 'roads'>) {
  const words = PLANNING_WORDS;
  const { draft, give: choose, settle } = useDraft('a road', { one: '', other: '' });
  const choices = [
    { value: '', words: words.choose },
    ...sites.map(({ id, name }) => ({ value: id, words: name })),
  ];
  const isRoad = draft.one !== '' && draft.other !== '' && draft.one !== draft.other;
  const add = () => {
    if (!isRoad) return;
    const key = roadKey(draft.one, draft.other);
    give({ ...roads, [key]: roads[key] ?? '' });
    settle();
  };
  return (
    <div class="add-line">
      <ChooseField
        label={words.roadFrom}
        value={draft.one}
        onValue={(one) => choose({ one })}
        choices={choices}
      />
      <ChooseField
        label={words.roadTo}
        value={draft.other}
        onValue={(other) => choose({ other })}
        choices={choices}
      />
      <button type="button" class="small" aria-disabled={!isRoad} onClick={add}>
        {words.addRoad}
      </button>
    </div>
  );
}
