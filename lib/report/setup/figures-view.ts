import { NO_UNIT_FIGURES } from '@/lib/contract/no-unit-figures';
import type { UnitFigures } from '@/lib/contract/unit-figures';
import { type DisplayKind, displayUnit } from '@/lib/report/format/display-unit';
import { type Figure, formatFigure, formatNumber, MISSING } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitDraft } from './unit-draft';

export type FigureRow = { label: string; figure: Figure; note: string | null };

/** What follows from the datasheet so far, for the panel beside the form. */
export type FiguresView = { rows: FigureRow[]; advice: string[] };

/** Difference of the two design duties above which a datasheet deserves a second look [-] (own choice). */
const NOTABLE_IMBALANCE = 0.03;
/** Stated and implied clean U that differ by more than this deserve a second look [-] (own choice). */
const NOTABLE_U_DIFFERENCE = 0.1;
const DIGITS = { digits: 4 };

export function figuresView(given: UnitFigures | null, draft: UnitDraft, system: UnitSystem): FiguresView {
  const figures = given ?? NO_UNIT_FIGURES;
  const shown = (value: number | null, kind: DisplayKind) => formatFigure(value, kind, system, DIGITS);
  const power = displayUnit('power', system, Math.max(figures.hotDuty ?? 0, figures.coldDuty ?? 0));
  const duty = (value: number | null) => formatFigure(value, 'power', system, { ...DIGITS, shown: power });
  const plain = (value: number | null, decimals: number): Figure => ({
    number: value === null ? MISSING : formatNumber(value, decimals),
    uncertainty: null,
    unit: '',
  });
  const isStated = draft.design.cleanU.value.trim() !== '';
  const rows: FigureRow[] = [
    { label: 'Effective area', figure: shown(figures.area, 'area'), note: areaNote(figures, draft) },
    ...channelRows(figures, draft, system),
    { label: 'Hot duty', figure: duty(figures.hotDuty), note: null },
    { label: 'Cold duty', figure: duty(figures.coldDuty), note: null },
    {
      label: 'Difference of the duties',
      figure: formatFigure(figures.balance, 'fraction', system, { decimals: 1, signed: true }),
      note: null,
    },
    { label: 'LMTD, counter-current', figure: shown(figures.lmtd, 'temperatureDifference'), note: null },
    { label: 'Correction F', figure: plain(figures.correction, 4), note: null },
    { label: 'Effectiveness ε', figure: plain(figures.effectiveness, 4), note: null },
    { label: 'NTU', figure: plain(figures.ntu, 3), note: null },
    {
      label: 'Clean U',
      figure: shown(figures.cleanU, 'conductance'),
      note: figures.cleanU === null ? null : isStated ? 'as stated' : 'from temperatures and flows',
    },
  ];
  return { rows, advice: adviceOf(figures, isStated, system) };
}

/** Velocity in the plate channels of each stream, once gap and width are stated. */
function channelRows(figures: UnitFigures, draft: UnitDraft, system: UnitSystem): FigureRow[] {
  const { channelGap, channelWidth } = draft.plates;
  const isStated = channelGap.value.trim() !== '' && channelWidth.value.trim() !== '';
  if (draft.areaBy !== 'plates' || !isStated) return [];
  return (['hot', 'cold'] as const).map((side) => ({
    label: `Velocity in the ${side} channels`,
    figure: formatFigure(figures[`${side}ChannelVelocity`], 'velocity', system, { digits: 2 }),
    note: channelNote(figures[`${side}Channels`], figures[`${side}ChannelReynolds`]),
  }));
}

function channelNote(channels: number | null, reynolds: number | null): string | null {
  if (channels === null) return null;
  const each = `${formatNumber(channels, Number.isInteger(channels) ? 0 : 1)} channels in each pass`;
  return reynolds === null ? each : `${each}, Re ${formatNumber(Number(reynolds.toPrecision(2)), 0)}`;
}

function areaNote({ channels }: UnitFigures, draft: UnitDraft): string | null {
  if (draft.areaBy !== 'plates' || channels === null) return null;
  return `(${draft.plates.count.trim()} − 2) plates, ${channels} channels: the end plates transfer nothing`;
}

function adviceOf(figures: UnitFigures, isStated: boolean, system: UnitSystem): string[] {
  const { balance, impliedU, cleanU } = figures;
  const advice: string[] = [];
  if (balance !== null && Math.abs(balance) > NOTABLE_IMBALANCE) {
    advice.push(
      'The two sides do not give the same duty: look at flows, temperatures and fluids. Their mean is used.',
    );
  }
  if (
    isStated &&
    impliedU !== null &&
    cleanU !== null &&
    Math.abs(impliedU / cleanU - 1) > NOTABLE_U_DIFFERENCE
  ) {
    const { number, unit } = formatFigure(impliedU, 'conductance', system);
    advice.push(
      `Temperatures and flows imply a clean U of ${number} ${unit}; a datasheet may state another with a margin.`,
    );
  }
  return advice;
}

const BUOYANCY = {
  'heated-stream-falls':
    'The cold stream enters at the top. A stream being heated should rise, so that buoyancy helps its pump. Advice, not an error.',
  'cooled-stream-rises':
    'The hot stream enters at the bottom. A stream being cooled should fall, so that buoyancy helps its pump. Advice, not an error.',
} as const;

/** Direction of flow that the nozzles give, and what buoyancy has to say of it. */
export function nozzlesInWords(figures: UnitFigures | null): string[] {
  if (figures === null || figures.direction === null) return [];
  const direction =
    figures.direction === 'counter'
      ? 'The streams enter at opposite ends: they run counter-current.'
      : 'The streams enter at the same end: they run co-current.';
  return [direction, ...figures.advice.map((code) => BUOYANCY[code])];
}

/** A film figure where the form leaves it to the default: "35 %, assumed". */
export function assumedFilms(figures: UnitFigures | null): Record<keyof UnitDraft['films'], string> {
  const films = figures?.films;
  if (!films) return { hotShare: '', wallShare: '', hotExponent: '', coldExponent: '' };
  const percent = (share: number) => `${Number((share * 100).toPrecision(3))} assumed`;
  return {
    hotShare: percent(films.hotShare),
    wallShare: percent(films.wallShare),
    hotExponent: `${films.hotExponent} assumed`,
    coldExponent: `${films.coldExponent} assumed`,
  };
}
