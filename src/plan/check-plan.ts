import { aboutErrorRates, isChance } from './check-error-rates.js';
import { MAX_CORES } from './cores.js';
import { INFORMANT_KINDS } from './error-rates.js';
import { InvalidPlan, MAX_MODES, type Plan } from './plan.js';

/** @throws InvalidPlan with everything that the locator could not compute with */
export function checkPlan(plan: Plan): void {
  const reasons = [
    ...aboutCores(plan),
    ...aboutFunctions(plan),
    ...aboutModes(plan),
    ...aboutStations(plan),
    ...aboutSpans(plan),
    ...aboutRates(plan),
    ...aboutErrorRates(plan.errors),
    ...aboutLooks(plan),
    ...aboutMinutes(plan),
  ];
  if (reasons.length > 0) throw new InvalidPlan(plan.name, reasons);
}

const unknown = (what: string, names: readonly string[], known: readonly string[]) =>
  names
    .filter((name) => !known.includes(name))
    .map((name) => `${what} "${name}", which the plan has not`);

function aboutCores({ cores, supply, return: back }: Plan): string[] {
  const reasons = unknown('supply or return is the core', [supply, back], cores);
  if (supply === back) reasons.push('supply and return are one core');
  if (new Set(cores).size < cores.length) reasons.push('two cores have one name');
  if (cores.length > MAX_CORES)
    reasons.push(`it has ${cores.length} cores: at most ${MAX_CORES} can be computed with`);
  return reasons;
}

function aboutFunctions({ cores, supply, return: back, functions }: Plan): string[] {
  const all = Object.entries(functions);
  const reasons = all.flatMap(([name, needed]) => [
    ...unknown(`${name} needs the core`, needed, cores),
    ...[supply, back]
      .filter((core) => !needed.includes(core))
      .map((core) => `${name} does not need ${core}, as every function must`),
  ]);
  if (all.length === 0 || all.length > MAX_MODES)
    reasons.push(`it has ${all.length} functions: 1 to ${MAX_MODES} can be computed with`);
  const bySize = all.toSorted(([, a], [, b]) => a.length - b.length);
  bySize.slice(1).forEach(([name, needed], i) => {
    const [fewer, its] = bySize[i] ?? ['', []];
    if (its.some((core) => !needed.includes(core)))
      reasons.push(`${name} does not need all the cores that ${fewer} needs, nor the reverse`);
  });
  return reasons;
}

function aboutModes({ functions, headEnd, headEndOfGroup, station, span }: Plan): string[] {
  const known = Object.keys(functions);
  const counts = [headEnd, headEndOfGroup, station, span].map((modes) => Object.keys(modes).length);
  const reasons = counts
    .filter((count) => count > MAX_MODES)
    .map((count) => `a component has ${count} modes: at most ${MAX_MODES} can be computed with`);
  for (const modes of [headEnd, headEndOfGroup, station, span])
    if ('ok' in modes) reasons.push('"ok" is no name for a fault');
  for (const [mode, fault] of Object.entries({ ...headEnd, ...headEndOfGroup, ...station }))
    reasons.push(...unknown(`${mode} disables`, fault.disables, known));
  for (const [mode, fault] of Object.entries(headEnd))
    if (fault.takesSupply && !known.every((name) => fault.disables.includes(name)))
      reasons.push(`${mode} takes the supply and does not disable every function`);
  for (const [mode, fault] of Object.entries(headEndOfGroup))
    if (fault.takesSupply) reasons.push(`${mode} takes the supply from one group only`);
  for (const mode of Object.keys(headEndOfGroup))
    if (mode in headEnd || mode.includes(':'))
      reasons.push(`${mode} is no name for the mode of a group`);
  return reasons;
}

function aboutStations({ station }: Plan): string[] {
  const reasons: string[] = [];
  if (Object.values(station).filter((fault) => fault.isVolume).length > 1)
    reasons.push('two modes of a station are its volume');
  const shorts = Object.entries(station).filter(([, fault]) => fault.shortsSupply);
  if (shorts.length > 1) reasons.push('two modes of a station short the supply');
  for (const [mode, { disables }] of shorts)
    if (disables.length > 0) reasons.push(`${mode} shorts the supply and disables besides`);
  return reasons;
}

function aboutSpans({ cores, return: back, span }: Plan): string[] {
  const faults = Object.entries(span);
  const reasons = faults.flatMap(([mode, fault]) => [
    ...('opens' in fault ? unknown(`${mode} opens the core`, [fault.opens], cores) : []),
    ...('shorts' in fault ? unknown(`${mode} shorts the core`, [fault.shorts], cores) : []),
    ...('shorts' in fault && fault.shorts === back ? [`${mode} shorts the return to itself`] : []),
  ]);
  if (faults.filter(([, fault]) => 'weakens' in fault).length > 1)
    reasons.push('two modes of a span weaken the feed');
  return reasons;
}

function aboutRates({ headEnd, headEndOfGroup, port, station, span, rates }: Plan): string[] {
  const modes = {
    headEnd: Object.keys({ ...headEnd, ...headEndOfGroup }),
    port: [port],
    station: Object.keys(station),
    junction: Object.keys(span),
    cablePerMetre: Object.keys(span),
  };
  return (Object.keys(modes) as (keyof typeof modes)[]).flatMap((group) => [
    ...unknown(`a rate of ${group} is of the mode`, Object.keys(rates[group]), modes[group]),
    ...Object.entries(rates[group])
      .filter(([, rate]) => !(rate >= 0 && rate < Infinity))
      .map(([mode]) => `the rate of ${mode} is no number of at least 0`),
  ]);
}

function aboutLooks({ looks, headEnd, headEndOfGroup }: Plan): string[] {
  const reasons = INFORMANT_KINDS.flatMap((kind) =>
    (['missed', 'false'] as const)
      .filter((error) => !isChance(looks[kind][error]))
      .map((error) => `"${error}" of looks by ${kind} is no chance`),
  );
  for (const [mode, { shown = 0 }] of Object.entries({ ...headEnd, ...headEndOfGroup }))
    if (!isChance(shown)) reasons.push(`the share of ${mode} that is shown is no chance`);
  return reasons;
}

function aboutMinutes({ functions, minutes }: Plan): string[] {
  return INFORMANT_KINDS.flatMap((kind) => [
    ...unknown(`minutes of ${kind} are of`, Object.keys(minutes[kind]), Object.keys(functions)),
    ...Object.keys(functions)
      .filter((name) => !((minutes[kind][name] ?? 0) > 0 && (minutes[kind][name] ?? 0) < Infinity))
      .map((name) => `trying ${name} takes ${kind} no number of minutes above 0`),
  ]);
}
