import {
  type Conductor,
  coreResistance,
  type CoreResistance,
  distanceToShort,
  exceedsExtraLowVoltage,
  type LongestTrunk,
  longestTrunk,
  loopOhmsPerMetreOf,
  murrayMetres,
  type PlannedTrunk,
  smallestConductor,
  type StationSupply,
  surveyTrunk,
  varleyOhms,
} from '../survey/index.js';
import { ElectricalError } from '../locator/electrical/index.js';
import { InvalidInputError } from '../shared/domain-error.js';
import {
  type AskedConductor,
  type DrawnSpan,
  readConductor,
  readLoad,
  readNodes,
} from './drawn-supply.js';
import type {
  DistanceDto,
  DistanceRequestDto,
  LoopBridgeDto,
  LoopBridgeRequestDto,
  SupplyDto,
  SurveyDto,
} from './survey.dto.js';

/** What of the survey is asked, each by the names of the wire. */
export type SurveyQuestion =
  | { kind: 'trunk'; drawn: readonly DrawnSpan[]; supply: SupplyDto; sourceVolts: number | null }
  | { kind: 'distance'; asked: DistanceRequestDto }
  | { kind: 'bridge'; asked: LoopBridgeRequestDto };

/** Reckons it; figures that cannot be, and a supply that collapses, are errors named by field. */
export function surveyAnswer(question: SurveyQuestion): SurveyDto | DistanceDto | LoopBridgeDto {
  return electrically(() => {
    switch (question.kind) {
      case 'trunk':
        return survey(question.drawn, question.supply, question.sourceVolts);
      case 'distance': {
        const { conductor, ...reading } = question.asked;
        return distanceToShort(coreOf(conductor).core, reading);
      }
      case 'bridge':
        return loopBridge(question.asked);
    }
  });
}

/** Impossible figures and a supply that collapses, named by field. */
function electrically<T>(reckon: () => T): T {
  try {
    return reckon();
  } catch (error) {
    if (!(error instanceof ElectricalError)) throw error;
    const ofConductor = ['squareMillimetres', 'gauge', 'ohmsPerKm'].includes(error.field);
    const path = error.field.replace(/\/parent$/, '/fedFrom');
    const field = ofConductor ? `/conductor/${path}` : `/${path}`;
    const collapse = error.code === 'supply-collapses' ? 'the supply collapses: ' : '';
    throw new InvalidInputError([{ field, reason: `${collapse}${error.reason}` }]);
  }
}

function loopBridge(asked: LoopBridgeRequestDto): LoopBridgeDto {
  const { kind, ohmsP, ohmsQ, loopMetres, ohmsS, loopOhms } = asked;
  if (kind === 'murray') return { metres: murrayMetres(ohmsP, ohmsQ, loopMetres), ohms: null };
  const errors = Object.entries({ ohmsS, loopOhms })
    .filter(([, value]) => value === undefined)
    .map(([name]) => ({ field: `/${name}`, reason: 'is missing: a varley test has it' }));
  if (ohmsS === undefined || loopOhms === undefined) throw new InvalidInputError(errors);
  const ohms = varleyOhms(ohmsP, ohmsQ, ohmsS, loopOhms);
  return { metres: (ohms / loopOhms) * loopMetres, ohms };
}

function coreOf(asked: AskedConductor): { core: CoreResistance; conductor: Conductor } {
  const conductor = readConductor(asked);
  if ('field' in conductor) throw new InvalidInputError([conductor]);
  return { core: coreResistance(conductor), conductor };
}

function survey(
  drawn: readonly DrawnSpan[],
  asked: SupplyDto,
  sourceVolts: number | null,
): SurveyDto {
  const { core, conductor } = coreOf(asked.conductor);
  const load = readLoad(asked);
  if ('field' in load) throw new InvalidInputError([load]);
  if (sourceVolts === null)
    throw new InvalidInputError([
      { field: '/sourceVolts', reason: 'is missing, and the record does not say it' },
    ]);
  const read = readNodes(drawn, load);
  if ('wrong' in read) throw new InvalidInputError(read.wrong);
  const { nodes } = read;
  const { celsius, minimumVolts, sourceOhms } = asked;
  const perMetre = loopOhmsPerMetreOf(core, celsius);
  const trunk = { sourceVolts, sourceOhms, loopOhmsPerMetre: perMetre, nodes };
  const { portVolts, portAmps, stations, last } = surveyTrunk(trunk, minimumVolts);
  const named = (station: StationSupply) => {
    const { node, cableMetres, volts, marginVolts } = station;
    return { id: drawn[node]?.id ?? '', cableMetres, volts, marginVolts };
  };
  const metres = nodes.reduce((sum, { cableMetres }) => sum + cableMetres, 0);
  const conductorClass = conductor.kind === 'iec-60228' ? conductor.conductorClass : FLEXIBLE;
  return {
    core: { ...core, loopOhmsPerMetre: perMetre },
    portVolts,
    portAmps,
    stations: stations.map(named),
    last: last && named(last),
    longest: longestIfAny(
      {
        sourceVolts,
        sourceOhms,
        loopOhmsPerMetre: perMetre,
        spacingMetres: metres / nodes.length,
        stationLoad: load,
      },
      minimumVolts,
    ),
    smallest: smallestConductor(trunk, conductorClass, celsius, minimumVolts),
    aboveExtraLowVoltage: exceedsExtraLowVoltage(sourceVolts, 'dc'),
  };
}

const FLEXIBLE = 5;

/** Null where the cable hardly resists. */
function longestIfAny(planned: PlannedTrunk, minimumVolts: number): LongestTrunk | null {
  try {
    return longestTrunk(planned, minimumVolts);
  } catch (error) {
    if (error instanceof ElectricalError && error.field === 'stationLoad') return null;
    throw error;
  }
}
