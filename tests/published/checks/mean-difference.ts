import { correctionFactor, shellCorrection } from '@/lib/core/exchange/correction';
import type { Arrangement } from '@/lib/core/exchange/exchanger';
import { counterCurrentLmtd, logMeanDifference } from '@/lib/core/exchange/lmtd';
import { maximumEffectiveness } from '@/lib/core/exchange/maximum-effectiveness';
import { crossflow, shell } from '../../support/published-arrangements';
import { readPublished } from '../../support/published-data';
import { type Check, type Row, single } from './check';
import { absolute } from './tolerance';

const reference = readPublished<{
  lmtd: { Thi: number; Tho: number; Tci: number; Tco: number; flow: 'counter' | 'co'; LMTD: number | null }[];
  F_shell: { R: number[]; P: number[]; F: Record<string, (number | null)[][]> };
  F_shell_limits: { shells: number; R: number; P_limit: number }[];
  F_crossflow_neither_mixed: { R: number; P: number; F: number }[];
}>('exchanger-arrangements');

const WRITTEN = absolute(1e-8, 'the file, whose values have eight to ten digits');

/** The same point in the terms of ε-NTU: the cold stream's P and R are those of the smaller stream or of the larger one. */
export function correctionByEffectiveness(arrangement: Arrangement, R: number, P: number): number {
  return R <= 1
    ? correctionFactor(arrangement, P, R, 'cold')
    : correctionFactor(arrangement, P * R, 1 / R, 'hot');
}

function lmtdChecks(): Check[] {
  return reference.lmtd.map((row) => {
    const given = { hotIn: row.Thi, hotOut: row.Tho, coldIn: row.Tci, coldOut: row.Tco };
    const hotOut = Number(row.Tho.toPrecision(8));
    const state = `${row.Thi} → ${hotOut} °C against ${row.Tci} → ${row.Tco} °C, ${row.flow === 'co' ? 'co' : 'counter'}-current`;
    return single({
      id: `LMTD ${state}`,
      quantity:
        row.LMTD === null
          ? 'logarithmic mean difference: impossible, no number'
          : 'logarithmic mean difference',
      unit: 'K',
      source: 'Incropera',
      origin: 'computed',
      tolerance: absolute(1e-9, 'ten decimals given'),
      at: state,
      theirs: row.LMTD,
      ours:
        row.flow === 'counter'
          ? counterCurrentLmtd(given)
          : logMeanDifference(row.Thi - row.Tci, row.Tho - row.Tco),
    });
  });
}

function shellRows(id: string, ours: (R: number, P: number) => number): Row[] {
  const { R, P, F } = reference.F_shell;
  return F[id]!.flatMap((row, i) =>
    row.map((theirs, j) => ({ at: `R ${R[i]}, P ${P[j]}`, theirs, ours: ours(R[i]!, P[j]!) })),
  );
}

function shellChecks(): Check[] {
  return Object.keys(reference.F_shell.F).flatMap((id, i) => {
    const shells = i + 1;
    const routes = {
      'by P and R': (R: number, P: number) => shellCorrection(R, P, shells),
      'by effectiveness': (R: number, P: number) => correctionByEffectiveness(shell(shells), R, P),
    };
    return Object.entries(routes).map(([words, ours]) => ({
      id: `F ${id}, ${words}`,
      quantity: `correction factor of ${id}, ${words}; none where infeasible`,
      unit: '–',
      source: 'Bowman 1940' as const,
      origin: 'computed' as const,
      tolerance: WRITTEN,
      rows: shellRows(id, ours),
    }));
  });
}

function shellLimits(): Check[] {
  return reference.F_shell_limits.map(({ shells, R, P_limit }) =>
    single({
      id: `P limit, ${shells} ${shells === 1 ? 'shell' : 'shells'}, R ${R}`,
      quantity: 'greatest temperature effectiveness P',
      unit: '–',
      source: 'Bowman 1940',
      origin: 'computed',
      tolerance: absolute(5e-9, 'nine decimals given'),
      at: `R ${R}`,
      theirs: P_limit,
      ours:
        R <= 1
          ? maximumEffectiveness(shell(shells), R, 'cold')
          : maximumEffectiveness(shell(shells), 1 / R, 'hot') / R,
    }),
  );
}

function crossflowCheck(): Check {
  return {
    id: 'F cross-flow, neither mixed',
    quantity: 'correction factor of cross-flow, neither fluid mixed',
    unit: '–',
    source: 'Mason 1955, Triboix 2009',
    origin: 'computed',
    tolerance: WRITTEN,
    rows: reference.F_crossflow_neither_mixed.map(({ R, P, F }) => ({
      at: `R ${R}, P ${P}`,
      theirs: F,
      ours: correctionByEffectiveness(crossflow('none'), R, P),
    })),
  };
}

export function meanDifferenceChecks(): Check[] {
  return [...lmtdChecks(), ...shellChecks(), ...shellLimits(), crossflowCheck()];
}
