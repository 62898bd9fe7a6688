import { SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import { rateOn } from '@/lib/core/cost/dated-rate';
import type { Side } from '@/lib/core/exchange/exchanger';
import { carbonText, moneyText } from '@/lib/report/energy/energy-format';
import { priceOn } from '@/lib/report/prices/price-on';
import type { WorkedLine, WorkedStep } from '@/lib/report/worked/worked-step';
import type { ChainDay, Pens } from './cost-chain';
import type { CostRecords } from './cost-records';
import type { Printed } from './printed-figures';
import { LETTER, pumpedLines } from './pumped-lines';

/** A unit of which a valve holds an outlet: the extra flow and the margin left, in place of lost duty. */
export function heldStep(cost: CostRecords, on: ChainDay, { write, printer }: Pens): WorkedStep {
  const { exchanger, daily } = cost;
  const held = exchanger.losses.heldOutlet!;
  const set: Side = held === 'hot' ? 'cold' : 'hot';
  const massFlow = daily[`${set}MassFlow`][on.row]!;
  const extra = on.losses.extraFlow[on.at]!;
  const maximum = exchanger.losses.maximumFlow[set];
  const lines: WorkedLine[] = [];
  if (!Number.isNaN(extra)) {
    const [flow, clean] = printer.printPair(massFlow, massFlow - extra, 'massFlow');
    lines.push({
      symbols: `ṁ_{extra} = ṁ_{${LETTER[set]}} − ṁ_{clean}`,
      figures: `${flow.text} − ${clean.text}`,
      result: write.text(flow.value - clean.value, 'massFlow'),
    });
  }
  if (!Number.isNaN(on.losses.marginLeft[on.at]!) && maximum !== null) {
    const [flow, most] = [massFlow, maximum].map((each) => printer.print(each, 'massFlow')) as [
      Printed,
      Printed,
    ];
    lines.push({
      symbols: `margin = 1 − frac{ṁ_{${LETTER[set]}}}{ṁ_{max}}`,
      figures: `1 − frac{${flow.text}}{${most.text}}`,
      result: write.percent(1 - flow.value / most.value),
    });
  }
  return {
    id: 'held',
    title: `Held outlet: extra ${set} flow, and the margin left`,
    lines,
    notes: [
      `A control valve holds the ${held} outlet by the flow of the ${set} stream: the duty stays, so no duty is lost. What fouling costs is the flow beyond that of the clean unit, which would give the same duty at the same inlets, and the margin that goes with it.`,
      ...(lines.length === 0
        ? [
            'Neither can be told for this day: the flow is not measured, or the clean unit needs none that can be found.',
          ]
        : []),
      ...(maximum === null
        ? [`The margin needs the largest ${set} flow: state it under Pumping in the datasheet.`]
        : []),
    ],
  };
}

/** Extra work of the pumps on the day, side by side, and what it costs; null where nothing is known of it. */
export function pumpingStep(cost: CostRecords, on: ChainDay, pens: Pens): WorkedStep | null {
  if (Number.isNaN(on.losses.pumping[on.at]!)) return null;
  const { rates, currency } = cost;
  const stated = priceOn(cost, on.day, 'pumping');
  const money = rateOn(rates.pumping.money, on.day);
  const carbon = rateOn(rates.pumping.carbon, on.day);
  const sides = pumpedLines(cost, on, pens.printer);
  const { text: power, value } = pens.printer.print(
    sides.reduce((sum, { power: each }) => sum + each.value, 0),
    'power',
  );
  const work = value * SECONDS_PER_DAY;
  const lines: WorkedLine[] = sides.map(({ line }) => line);
  if (sides.length > 1)
    lines.push({
      symbols: `P_{pump} = ${sides.map(({ symbol }) => symbol).join(' + ')}`,
      figures: sides.map(({ power: { text } }) => (text.startsWith('−') ? `(${text})` : text)).join(' + '),
      result: power,
    });
  const symbol = sides.length > 1 ? 'P_{pump}' : sides[0]!.symbol;
  if (money !== null && stated.price !== null)
    lines.push({
      symbols: `money = ${symbol} · 24 h · price`,
      figures: `${power} · 24 h · ${stated.price}`,
      result: `${moneyText(work * money, null, currency)} a day`,
    });
  if (carbon !== null && stated.carbon !== null)
    lines.push({
      symbols: `CO_{2}e = ${symbol} · 24 h · factor`,
      figures: `${power} · 24 h · ${stated.carbon}`,
      result: `${carbonText(work * carbon)} a day`,
    });
  const notes = [
    'Work of the pumps against what fouling adds, at the flow of the day; below 0 the unit drops less than its clean value.',
  ];
  if (money === null)
    notes.push('It has no price: name the supply of the pumps under Pumping in the datasheet.');
  return { id: 'pumping', title: 'Extra pumping', lines, notes };
}
