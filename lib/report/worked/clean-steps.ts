import { filmResistance } from '@/lib/core/clean/clean-conductance';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Side } from '@/lib/core/exchange/exchanger';
import { basisInWords, isAsOnDatasheet } from '@/lib/report/reference/basis-words';
import { referencePath } from '@/lib/report/reference/reference-entries';
import { endSymbols, ratesOf } from './conductance-steps';
import { type EvaluatedUnit, PLACE, type WorkedState } from './worked-state';
import type { WorkedLine, WorkedStep, Writer } from './worked-step';

/** Clean U at this reading's flows, fouling resistance, cleanliness, lost duty, and how sure all that is. */
export function cleanSteps(state: WorkedState, known: EvaluatedUnit, write: Writer): WorkedStep[] {
  return [
    cleanUStep(state, known, write),
    foulingStep(state, write),
    lostDutyStep(state, write),
    uncertaintyStep(state, write),
  ];
}

function cleanUStep(state: WorkedState, known: EvaluatedUnit, write: Writer): WorkedStep {
  const { model, figure, basis } = state;
  const films = (['hot', 'cold'] as const).map((side) => filmLine(state, side, write));
  const resistance = (value: number) => write.text(value, 'foulingResistance');
  const terms = [model.clean.wall, ...films.map(({ value }) => value)].map(resistance);
  const [datasheet, reference] = basisInWords(basis, known, known.record.site.timeZone);
  return {
    id: 'clean-u',
    title: 'Clean U at the same flows',
    lines: [
      {
        symbols: 'R_{w}',
        figures: 'wall, from the datasheet',
        result: resistance(model.clean.wall),
      },
      ...films.map(({ line }) => line),
      {
        ...sumLine(basis.cleanFactors, terms, write),
        result: resistance(1 / figure('cleanU')),
      },
      { symbols: 'U_{c}', figures: 'the inverse', result: write.text(figure('cleanU'), 'conductance') },
    ],
    notes: [
      `At the design point a clean unit has ${write.text(model.clean.cleanUDesign, 'conductance')} by its datasheet. A lower flow lowers U on a perfectly clean unit, so each film is moved to this reading’s flow and temperature.`,
      `Judged by ${datasheet}.`,
      `What counts as clean: ${reference}.`,
    ],
    more: { href: referencePath(known.record.tag), label: 'All clean references' },
  };
}

/** The resistances added up, each with its factor: none, one for all, or one for each film. */
function sumLine(
  factors: CleanFactors,
  [wall, hot, cold]: string[],
  write: Writer,
): Pick<WorkedLine, 'symbols' | 'figures'> {
  const of = 'frac{1}{U_{c}} = ';
  if (isAsOnDatasheet(factors)) {
    return { symbols: `${of}R_{w} + R_{h} + R_{c}`, figures: `${wall} + ${hot} + ${cold}` };
  }
  const [w, h, c] = [factors.wall, factors.hot, factors.cold].map(write.plain);
  if (factors.hot === factors.cold && factors.hot === factors.wall) {
    return { symbols: `${of}f · (R_{w} + R_{h} + R_{c})`, figures: `${h} · (${wall} + ${hot} + ${cold})` };
  }
  return {
    symbols: `${of}f_{w} · R_{w} + f_{h} · R_{h} + f_{c} · R_{c}`,
    figures: `${w} · ${wall} + ${h} · ${hot} + ${c} · ${cold}`,
  };
}

function filmLine(
  { model, reconciled }: WorkedState,
  side: Side,
  write: Writer,
): { value: number; line: WorkedLine } {
  const film = model.clean[side];
  const flow = reconciled[PLACE[`${side}Flow`]]!;
  const mean = (reconciled[PLACE[`${side}In`]]! + reconciled[PLACE[`${side}Out`]]!) / 2;
  const value = filmResistance(film, flow, mean);
  const letter = side === 'hot' ? 'h' : 'c';
  const result = write.text(value, 'foulingResistance');
  const reference = write.text(film.resistance, 'foulingResistance');
  if (film.exponent === 0 && film.properties === null) {
    return {
      value,
      line: { symbols: `R_{${letter}}`, figures: constantFilm(model, side), result },
    };
  }
  // The property factor is what is left of the film's change when its flow part is taken out.
  const byFlow = filmResistance({ ...film, properties: null }, flow, mean);
  const ratio = `(frac{${write.text(flow, 'massFlow')}}{${write.text(film.flow, 'massFlow')}})`;
  return {
    value,
    line: {
      symbols: `R_{${letter}} = R_{${letter},ref} · (frac{ṁ_{${letter}}}{ṁ_{${letter},ref}})^{−n} · φ_{${letter}}`,
      figures: `${reference} · ${ratio}^{−${film.exponent}} · ${film.properties === null ? '1' : write.plain(value / byFlow)}`,
      result,
    },
  };
}

function constantFilm({ phaseChange }: WorkedState['model'], side: Side): string {
  if (phaseChange !== side) return 'film without flow exponent, taken as constant';
  return `${side === 'hot' ? 'condensing' : 'evaporating'} film, taken as constant`;
}

function foulingStep({ figure }: WorkedState, write: Writer): WorkedStep {
  const [u, clean] = [
    write.text(figure('overallU'), 'conductance'),
    write.text(figure('cleanU'), 'conductance'),
  ];
  return {
    id: 'rf',
    title: 'Fouling resistance and cleanliness',
    lines: [
      {
        symbols: 'R_{f} = frac{1}{U} − frac{1}{U_{c}}',
        figures: `frac{1}{${u}} − frac{1}{${clean}}`,
        result: write.text(
          figure('foulingResistance'),
          'foulingResistance',
          figure('foulingResistanceUncertainty'),
        ),
      },
      {
        symbols: 'cleanliness = frac{U}{U_{c}}',
        figures: `frac{${u}}{${clean}}`,
        result: write.percent(figure('cleanliness')),
      },
    ],
    notes: ['Never cut off at zero: a negative value says the unit did better than its reference.'],
  };
}

function lostDutyStep(state: WorkedState, write: Writer): WorkedStep {
  const { figure, model, reconciled } = state;
  const rates = ratesOf(state);
  const ends = endSymbols(model.phaseChange);
  const transferUnits = (figure('cleanU') * model.exchanger.area) / rates.smallest;
  const reached = effectiveness(model.exchanger.arrangement, transferUnits, rates.ratio, rates.smaller);
  const span = write.text(reconciled[PLACE.hotIn]! - reconciled[model.coldStart]!, 'temperatureDifference');
  const duty = write.text(figure('duty'), 'power');
  const cleanDuty = write.text(figure('duty') + figure('lostDuty'), 'power');
  return {
    id: 'lost-duty',
    title: 'Lost duty',
    lines: [
      {
        symbols: 'ε_{c} = ε(frac{U_{c} · A}{C_{min}}, C_{r})',
        figures: `NTU_{c} = ${write.plain(transferUnits)}, C_{r} = ${write.plain(rates.ratio)}`,
        result: write.plain(reached),
      },
      {
        symbols: `Q_{clean} = ε_{c} · C_{min} · (${ends.hotIn} − ${ends.coldIn})`,
        figures: `${write.plain(reached)} · ${write.text(rates.smallest, 'totalConductance')} · ${span}`,
        result: cleanDuty,
      },
      {
        symbols: 'Q_{lost} = Q_{clean} − Q',
        figures: `${cleanDuty} − ${duty}`,
        result: write.text(figure('lostDuty'), 'power'),
      },
    ],
    notes: ['What the clean unit would transfer at the same inlets and flows, less what this one does.'],
  };
}

function uncertaintyStep({ figure }: WorkedState, write: Writer): WorkedStep {
  const whole = figure('foulingResistanceUncertainty');
  const systematic = figure('foulingResistanceSystematic');
  return {
    id: 'uncertainty',
    title: 'Uncertainty',
    lines: [
      {
        symbols: 'u^{2}(y) = Σ (frac{∂y}{∂x_{k}} · u_{k})^{2}',
        figures: 'y = Q, over the six sensors',
        result: write.text(figure('dutyUncertainty'), 'power'),
      },
      {
        symbols: 'u(U)',
        figures: 'the same for U',
        result: write.text(figure('overallUUncertainty'), 'conductance'),
      },
      { symbols: 'u(R_{f})', figures: 'the same for R_{f}', result: write.text(whole, 'foulingResistance') },
      {
        symbols: 'u_{sys}(R_{f})',
        figures: 'the part every reading shares: averaging does not shrink it',
        result: write.text(systematic, 'foulingResistance'),
      },
    ],
    notes: [
      'Standard uncertainties (one standard deviation), first order (JCGM 100:2008, eq. 10), with the balance closed.',
    ],
  };
}
