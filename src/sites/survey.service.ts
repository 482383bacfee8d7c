import { Injectable } from '@nestjs/common';
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
import { InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import type { HeadEnd } from './as-built.js';
import { AsBuiltService } from './as-built.service.js';
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
  StoredSupplyDto,
  SupplyDto,
  SurveyDto,
  SurveyRequestDto,
} from './survey.dto.js';

/** What a cable can feed, and how far along it a short is: reckoned, nothing kept. */
@Injectable()
export class SurveyService {
  constructor(private readonly asBuilt: AsBuiltService) {}

  survey({ nodes, ...supply }: SurveyRequestDto): SurveyDto {
    return electrically(() => survey(nodes, supply, supply.sourceVolts));
  }

  /** Of a trunk in the record; what its head-end says of the supply, unless something else is asked about. */
  async surveyStored(siteId: string, code: string, asked: StoredSupplyDto): Promise<SurveyDto> {
    const { headEnd, trunks } = await this.asBuilt.drawing(siteId);
    const drawn = trunks.find(({ trunk }) => trunk === code);
    if (drawn === undefined) throw new NotFoundError('trunk', code);
    const spans = drawn.nodes.map(({ node, ...span }) => ({ ...span, id: node }));
    const volts = asked.sourceVolts ?? headEnd.supplyVolts ?? undefined;
    return electrically(() => survey(spans, orRecorded(asked, headEnd), volts));
  }

  distanceToShort({ conductor, ...reading }: DistanceRequestDto): DistanceDto {
    return electrically(() => distanceToShort(coreOf(conductor).core, reading));
  }

  loopBridge({
    kind,
    ohmsP,
    ohmsQ,
    loopMetres,
    ohmsS,
    loopOhms,
  }: LoopBridgeRequestDto): LoopBridgeDto {
    return electrically(() => {
      if (kind === 'murray') return { metres: murrayMetres(ohmsP, ohmsQ, loopMetres), ohms: null };
      const errors = Object.entries({ ohmsS, loopOhms })
        .filter(([, value]) => value === undefined)
        .map(([name]) => ({ field: `/${name}`, reason: 'is missing: a varley test has it' }));
      if (ohmsS === undefined || loopOhms === undefined) throw new InvalidInputError(errors);
      const ohms = varleyOhms(ohmsP, ohmsQ, ohmsS, loopOhms);
      return { metres: (ohms / loopOhms) * loopMetres, ohms };
    });
  }
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

function orRecorded(asked: StoredSupplyDto, recorded: HeadEnd): SupplyDto {
  const { coreOhmsPerKm, supplyOhms, stationAmps } = recorded;
  const conductor =
    coreOhmsPerKm === null
      ? undefined
      : ({ kind: 'measured', ohmsPerKm: coreOhmsPerKm, celsius: 20 } as const);
  const known = asked.conductor ?? conductor;
  if (known === undefined)
    throw new InvalidInputError([
      { field: '/conductor', reason: 'is missing, and the record does not say it' },
    ]);
  const isLoadAsked = asked.stationAmps !== undefined || asked.stationWatts !== undefined;
  return {
    ...asked,
    conductor: known,
    sourceOhms: asked.sourceOhms ?? supplyOhms ?? 0,
    ...(!isLoadAsked && stationAmps !== null && { stationAmps }),
  };
}

function coreOf(asked: AskedConductor): { core: CoreResistance; conductor: Conductor } {
  const conductor = readConductor(asked);
  if ('field' in conductor) throw new InvalidInputError([conductor]);
  return { core: coreResistance(conductor), conductor };
}

function survey(
  drawn: readonly DrawnSpan[],
  asked: SupplyDto,
  sourceVolts: number | undefined,
): SurveyDto {
  const { core, conductor } = coreOf(asked.conductor);
  const load = readLoad(asked);
  if ('field' in load) throw new InvalidInputError([load]);
  if (sourceVolts === undefined)
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
