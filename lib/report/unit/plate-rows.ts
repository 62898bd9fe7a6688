import { platePackOf } from '@/lib/contract/plate-pack';
import type { Side } from '@/lib/core/exchange/exchanger';
import { channelsOf, type PlatePack, SLOW_SHARE } from '@/lib/core/exchange/plate-channel';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { type ChannelFlow, channelFlow, designChannelFlow } from '@/lib/core/fouling/channel-flow';
import { RECENT_FIGURES } from '@/lib/core/pipeline/recent-conditions';
import { recentMedian } from '@/lib/core/pipeline/recent-median';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecord } from '@/lib/report/records';
import { bothSystems, type DatasheetRow, quantityRow, wordsRow } from './datasheet-row';

/** Digits of a velocity worth showing [-]: a gap is known to a few per cent. */
const VELOCITY_DIGITS = 3;

const SIDES = ['hot', 'cold'] as const;

type Channels = { side: Side; count: number; design: ChannelFlow; recent: ChannelFlow };

/** Gap, width, channels and velocities of the plates; empty unless the datasheet states gap and width. */
export function plateRows(record: UnitRecord, daily: DailyColumns): DatasheetRow[] {
  const { channelGap, channelWidth } = record.unit.plates ?? {};
  const channels = channelsBySide(record, daily);
  if (channels === null || channelGap === undefined || channelWidth === undefined) return [];
  return [
    quantityRow('Gap between plates', channelGap, 'length'),
    quantityRow('Width of a channel', channelWidth, 'length'),
    ...channels.flatMap(velocityRows),
  ];
}

/** Where the stream is much slower than the plates were chosen for. */
export function slowChannelAdvice(record: UnitRecord, daily: DailyColumns, system: UnitSystem): string[] {
  return (channelsBySide(record, daily) ?? []).flatMap(({ side, design, recent }) => {
    if (design.velocity === null || recent.velocity === null) return [];
    if (recent.velocity >= SLOW_SHARE * design.velocity) return [];
    const [now, then] = [recent.velocity, design.velocity].map((value) =>
      formatFigureText(value, 'velocity', system, { digits: 2 }),
    );
    const share = formatNumber((recent.velocity / design.velocity) * 100, 0);
    return [
      `The ${side} stream runs at ${now} in the channels, ${share} % of the ${then} of its duty point (median of the last ${RECENT_FIGURES} days with figures). Slow channels foul faster: the wall shear that carries deposits off falls with almost the square of the velocity. Advice, not an error.`,
    ];
  });
}

function channelsBySide(record: UnitRecord, daily: DailyColumns): Channels[] | null {
  const { unit, exchanger } = record;
  const pack = platePackOf(unit.plates, exchanger.arrangement);
  if (pack === null) return null;
  return SIDES.map((side) => ({
    side,
    count: channelsOf(pack.count, side) / (side === 'hot' ? pack.hotPasses : pack.coldPasses),
    design: designChannelFlow(exchanger, pack, side),
    recent: recentFlow(record, daily, { pack, side }),
  }));
}

function recentFlow(
  { exchanger }: UnitRecord,
  daily: DailyColumns,
  { pack, side }: { pack: PlatePack; side: Side },
): ChannelFlow {
  return channelFlow(pack, side, {
    fluid: makeFluid(exchanger[side]),
    massFlow: recentMedian(daily, daily[`${side}MassFlow`]),
    inlet: recentMedian(daily, daily[`${side}In`]),
    outlet: recentMedian(daily, daily[`${side}Out`]),
  });
}

function velocityRows({ side, count, design, recent }: Channels): DatasheetRow[] {
  const name = side === 'hot' ? 'Hot' : 'Cold';
  const channels = `${formatNumber(count, Number.isInteger(count) ? 0 : 1)} channels in each pass`;
  if (design.velocity === null) {
    return [
      wordsRow(`${name} channels`, channels, 'No velocity: the stream changes phase or states no density.'),
    ];
  }
  const rows: DatasheetRow[] = [
    {
      label: `${name} velocity, duty point`,
      given: '',
      ...bothSystems(design.velocity, 'velocity', VELOCITY_DIGITS),
      note: sentences(`${channels}.`, reynoldsNote(design)),
    },
  ];
  if (recent.velocity === null) return rows;
  return [
    ...rows,
    {
      label: `${name} velocity, of late`,
      given: '',
      ...bothSystems(recent.velocity, 'velocity', VELOCITY_DIGITS),
      note: sentences(`Median of the last ${RECENT_FIGURES} days with figures.`, reynoldsNote(recent)),
    },
  ];
}

function sentences(...parts: (string | null)[]): string {
  return parts.filter((part) => part !== null).join(' ');
}

/** Digits of a Reynolds number worth showing [-]: a gap is known to a few per cent. */
const REYNOLDS_DIGITS = 2;

function reynoldsNote({ reynolds }: ChannelFlow): string | null {
  if (reynolds === null) return null;
  return `Re ${formatNumber(Number(reynolds.toPrecision(REYNOLDS_DIGITS)), 0)}, on twice the gap.`;
}
