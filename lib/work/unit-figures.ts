import { z } from 'zod';
import { AppError, type Fault } from '@/lib/contract/app-error';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import { filmsOf } from '@/lib/contract/film-defaults';
import {
  arrangementSchema,
  filmsSchema,
  platesSchema,
  type Unit,
  unitSchema,
} from '@/lib/contract/fleet-file';
import { NO_UNIT_FIGURES } from '@/lib/contract/no-unit-figures';
import { platePackOf } from '@/lib/contract/plate-pack';
import { inSi, positiveQuantity } from '@/lib/contract/quantity';
import type { UnitFigures } from '@/lib/contract/unit-figures';
import { buoyancyAdvice, directionFromNozzles } from '@/lib/core/exchange/direction';
import { plateArea, plateChannels } from '@/lib/core/exchange/plate-area';
import { channelsOf } from '@/lib/core/exchange/plate-channel';
import { designChannelFlow } from '@/lib/core/fouling/channel-flow';
import { designState } from './design-state';

/** What a half-filled datasheet lacks, so that the rest can be worked out: never shown, never stored. */
const STAND_IN = {
  tag: 'stand-in',
  area: { value: 1, unit: 'm2' },
  limits: [{ kind: 'cleanliness' as const, below: 0.5 }],
};

const STAND_IN_U = { value: 1, unit: 'W/(m2.K)' };

/** A datasheet as far as it was filled in: anything may be missing or wrong. */
export type UnitPart = Record<string, unknown>;

/** What follows from a datasheet as far as it is filled in: each figure as soon as what it needs is there. */
export function unitFigures(part: UnitPart): UnitFigures {
  const area = areaFigures(part);
  return {
    ...NO_UNIT_FIGURES,
    ...area,
    ...nozzleFigures(part),
    ...designFigures(part, area.area),
    ...channelFigures(part),
    films: filmFigures(part),
  };
}

/** What the physics objects to in the parts that are filled in, whatever else is still missing. */
export function physicsFaults(part: UnitPart): Fault[] {
  const candidate = candidateOf(part, part.design);
  if (candidate === null) return [];
  try {
    toExchanger(candidate);
    return [];
  } catch (error) {
    if (error instanceof AppError) return error.faults;
    throw error;
  }
}

function areaFigures(part: UnitPart): Pick<UnitFigures, 'area' | 'channels'> {
  const plates = platesSchema.safeParse(part.plates);
  if (plates.success) {
    const { count, areaEach } = plates.data;
    return { area: plateArea(count, inSi(areaEach, 'area')), channels: plateChannels(count) };
  }
  const area = positiveQuantity('area').safeParse(part.area);
  return { area: area.success ? inSi(area.data, 'area') : null, channels: null };
}

const end = z.enum(['top', 'bottom']);
const nozzlesSchema = z.object({ hotIn: end, coldIn: end });

function nozzleFigures(part: UnitPart): Pick<UnitFigures, 'direction' | 'advice'> {
  const nozzles = nozzlesSchema.safeParse(part.nozzles);
  if (!nozzles.success) return { direction: null, advice: [] };
  return { direction: directionFromNozzles(nozzles.data), advice: buoyancyAdvice(nozzles.data) };
}

function designFigures(part: UnitPart, area: number | null): Partial<UnitFigures> {
  const stated = (typeof part.design === 'object' ? part.design : null) as UnitPart | null;
  // A design point out of the arrangement's reach still has duties: they show what is wrong with it.
  const design = stated === null ? null : { ...stated, cleanU: stated.cleanU ?? STAND_IN_U };
  const candidate = candidateOf(part, design);
  const exchanger = candidate === null ? null : exchangerOrNull(candidate);
  if (exchanger === null) return {};
  const state = designState({ ...exchanger, area: area ?? exchanger.area });
  const { hotFlow, coldFlow } = exchanger.design;
  const cleanU = stated?.cleanU === undefined ? null : exchanger.design.cleanU;
  const impliedU = area === null || state === null ? null : orNull(state.impliedU);
  return {
    hotMassFlow: hotFlow,
    coldMassFlow: coldFlow,
    hotDuty: orNull(state?.hotDuty),
    coldDuty: orNull(state?.coldDuty),
    balance: orNull(state?.balance),
    lmtd: orNull(state?.lmtd),
    correction: orNull(state?.correction),
    effectiveness: orNull(state?.effectiveness),
    ntu: orNull(state?.ntu),
    impliedU,
    cleanU: cleanU ?? impliedU,
  };
}

/** Velocities in the plate channels at the design flows: they need the streams and the channel, not the conductance. */
function channelFigures(part: UnitPart): Partial<UnitFigures> {
  const plates = platesSchema.safeParse(part.plates);
  const design = typeof part.design === 'object' ? { ...part.design, cleanU: STAND_IN_U } : null;
  const candidate = plates.success ? candidateOf(part, design) : null;
  const exchanger = candidate === null ? null : exchangerOrNull(candidate);
  const pack = exchanger === null ? null : platePackOf(plates.data, exchanger.arrangement);
  if (exchanger === null || pack === null) return {};
  const [hot, cold] = (['hot', 'cold'] as const).map((side) => designChannelFlow(exchanger, pack, side));
  return {
    hotChannels: channelsOf(pack.count, 'hot') / pack.hotPasses,
    coldChannels: channelsOf(pack.count, 'cold') / pack.coldPasses,
    hotChannelVelocity: hot!.velocity,
    coldChannelVelocity: cold!.velocity,
    hotChannelReynolds: hot!.reynolds,
    coldChannelReynolds: cold!.reynolds,
  };
}

/** The thermal parts of a datasheet with stand-ins for the rest; null while they are not complete themselves. */
function candidateOf(part: UnitPart, design: unknown): Unit | null {
  const { arrangement, nozzles, hot, cold, sensors } = part;
  const candidate = { ...STAND_IN, arrangement, nozzles, hot, cold, design };
  const withMeters = unitSchema.safeParse({ ...candidate, sensors });
  const parsed = withMeters.success ? withMeters : unitSchema.safeParse(candidate);
  return parsed.success ? parsed.data : null;
}

function exchangerOrNull(unit: Unit) {
  try {
    return toExchanger(unit);
  } catch (error) {
    if (error instanceof AppError) return null;
    throw error;
  }
}

const buildSchema = z.object({
  construction: unitSchema.shape.construction,
  tubeSide: unitSchema.shape.tubeSide,
});

function filmFigures(part: UnitPart): UnitFigures['films'] {
  const arrangement = arrangementSchema.safeParse(part.arrangement);
  const build = buildSchema.safeParse(part);
  const films = filmsSchema.optional().safeParse(part.films);
  if (!arrangement.success || !build.success) return null;
  const stated = films.success ? films.data : undefined;
  return filmsOf({ ...build.data, arrangement: arrangement.data, films: stated } as Unit);
}

function orNull(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : value;
}
