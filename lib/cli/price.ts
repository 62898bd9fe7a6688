import type { Command } from 'commander';
import { priceRequestSchema } from '@/lib/contract/prices';
import { recordPrice } from '@/lib/work/record-price';
import { message } from './output';
import { numberOrNull, stated } from './stated';
import { withContext } from './with-context';

type Options = {
  from: string;
  amount?: string;
  per: string;
  carbon?: string;
  carbonPer: string;
  withdraw?: boolean;
  by?: string;
  note?: string;
  json?: boolean;
};

export function addPrice(program: Command): void {
  program
    .command('price')
    .argument('<site>')
    .argument('<supply>', 'as datasheets name it: natural gas, electricity, steam')
    .requiredOption('--from <day>', 'first day it holds, YYYY-MM-DD')
    .option('--amount <price>', 'in the currency of the site')
    .option('--per <unit>', 'of energy that the price is for', 'kW.h')
    .option('--carbon <kg>', 'CO2e emitted')
    .option('--carbon-per <unit>', 'of energy that the factor is for', 'kW.h')
    .option('--withdraw', 'takes back what was stated from that day on')
    .option('--by <name>', 'who says so')
    .option('--note <text>', 'where it comes from')
    .option('--json', 'print the entry as JSON')
    .description('records what a supply costs and emits from a day on')
    .action(async (site: string, supply: string, { json, ...options }: Options) => {
      const request = stated(priceRequestSchema, requestOf(site, supply, options));
      const tags = await withContext((context) => recordPrice(context, request));
      if (json) process.stdout.write(`${JSON.stringify({ ...request, usedBy: tags }, null, 2)}\n`);
      const what = request.withdraw ? 'withdrawn' : 'recorded';
      const next = tags.length === 0 ? 'no unit uses it yet' : 'run cleanby analyse';
      message(`${site}, ${supply}: ${what} from ${request.from}; ${next}`);
    });
}

function requestOf(site: string, supply: string, options: Omit<Options, 'json'>) {
  const amount = numberOrNull(options.amount);
  const kg = numberOrNull(options.carbon);
  return {
    site,
    supply,
    from: options.from,
    price: amount === null ? null : { amount, per: options.per },
    carbon: kg === null ? null : { kg, per: options.carbonPer },
    withdraw: options.withdraw,
    by: options.by,
    note: options.note,
  };
}
