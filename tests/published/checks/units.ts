import { type Kind, SI_UNIT, toSi } from '@/lib/contract/ucum';
import { type Check, single } from './check';
import { digits } from './tolerance';

/** Factors of appendix B.8, to the digits printed there (from memory). */
const FACTORS: [unit: string, kind: Kind, si: number, digits: number][] = [
  ['[gal_us]/min', 'volumeFlow', 6.30902e-5, 6],
  ['[lb_av]/h', 'massFlow', 1.259979e-4, 7],
  ['[lb_av]/s', 'massFlow', 0.4535924, 7],
  ['[ft_i]3/min', 'volumeFlow', 4.719474e-4, 7],
  ['[ft_i]2', 'area', 9.290304e-2, 7],
  ['[psi]', 'pressure', 6.894757e3, 7],
  ['bar', 'pressure', 1e5, 7],
  ['[Btu_IT]/h', 'power', 2.930711e-1, 7],
  ['[Btu_IT]/(h.[ft_i]2.[degF])', 'conductance', 5.678263, 7],
  ['h.[ft_i]2.[degF]/[Btu_IT]', 'foulingResistance', 1.761102e-1, 7],
  ['[Btu_IT]/([lb_av].[degF])', 'specificHeat', 4.1868e3, 7],
  ['cP', 'viscosity', 1e-3, 7],
  ['cSt', 'kinematicViscosity', 1e-6, 7],
  ['kW.h', 'energy', 3.6e6, 7],
];

export function unitChecks(): Check[] {
  return FACTORS.map(([unit, kind, theirs, count]) =>
    single({
      id: `1 ${unit}`,
      quantity: `${kind.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)}, read as UCUM`,
      unit: SI_UNIT[kind],
      source: 'NIST SP 811',
      origin: 'recalled',
      tolerance: digits(count, 'as printed'),
      theirs,
      ours: toSi(1, unit, kind),
    }),
  );
}
