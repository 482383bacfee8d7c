import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import type { HeadEnd } from './as-built.js';
import { AsBuiltService } from './as-built.service.js';
import type { SurveyQuestion } from './survey-answer.js';
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

const SURVEY: Task<SurveyQuestion, SurveyDto | DistanceDto | LoopBridgeDto> = {
  file: new URL('./survey.worker.js', import.meta.url),
  errors: { InvalidInputError },
};

/** What a cable can feed, and how far along it a short is: reckoned, nothing kept. */
@Injectable()
export class SurveyService {
  constructor(
    private readonly asBuilt: AsBuiltService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
  ) {}

  survey({ nodes, ...supply }: SurveyRequestDto): Promise<SurveyDto> {
    const sourceVolts = supply.sourceVolts ?? null;
    return this.work({ kind: 'trunk', drawn: nodes, supply, sourceVolts });
  }

  /** Of a trunk in the record; what its head-end says of the supply, unless something else is asked about. */
  async surveyStored(siteId: string, code: string, asked: StoredSupplyDto): Promise<SurveyDto> {
    const { headEnd, trunks } = await this.transaction.read(() => this.asBuilt.drawing(siteId));
    const found = trunks.find(({ trunk }) => trunk === code);
    if (found === undefined) throw new NotFoundError('trunk', code);
    const drawn = found.nodes.map(({ node, kind, fedFrom, cableMetres }) => {
      return { id: node, kind, fedFrom, cableMetres };
    });
    const sourceVolts = asked.sourceVolts ?? headEnd.supplyVolts;
    return this.work({ kind: 'trunk', drawn, supply: orRecorded(asked, headEnd), sourceVolts });
  }

  distanceToShort(asked: DistanceRequestDto): Promise<DistanceDto> {
    return this.work({ kind: 'distance', asked });
  }

  loopBridge(asked: LoopBridgeRequestDto): Promise<LoopBridgeDto> {
    return this.work({ kind: 'bridge', asked });
  }

  /** Instances of classes do not travel to a thread. */
  private async work<Answer>(question: SurveyQuestion): Promise<Answer> {
    const plain = JSON.parse(JSON.stringify(question)) as SurveyQuestion;
    return (await this.compute.run(SURVEY, plain)) as Answer;
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
