import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { saturationPressure } from '@/lib/core/fluids/saturation-line';
import { makeSteam, saturatedVapourEnthalpy } from '@/lib/core/fluids/steam';
import { waterVapourState } from '@/lib/core/fluids/water-vapour';
import type { Check, Row } from './check';
import { digits } from './tolerance';
import { COMPUTED, type Column, cases, TABULATED } from './water-data';

type SteamColumn = Column & { ours: (row: number[]) => number; tolerance?: Check['tolerance'] };

function columnChecks(what: string, columns: SteamColumn[], rows: number[][], atUnit: string): Check[] {
  return columns.map(({ quantity, unit, place, source, ours, tolerance = COMPUTED }) => ({
    id: `${what}: ${quantity}`,
    quantity,
    unit,
    source,
    origin: 'computed',
    tolerance,
    rows: rows.map((row): Row => ({ at: `${row[0]} ${atUnit}`, theirs: row[place]!, ours: ours(row) })),
  }));
}

function steamByPressure(): Check[] {
  const { rows } = cases.saturated_steam;
  const made = new Map(rows.map(([bar]) => [bar!, makeSteam(bar! * 1e5)]));
  const steam = (row: number[]) => made.get(row[0]!)!;
  const boiling = (row: number[]) => steam(row).phaseChange!.saturationTemperature!;
  const columns: SteamColumn[] = [
    { quantity: 'saturation temperature', unit: '°C', place: 1, source: 'IAPWS R7-97', ours: boiling },
    {
      quantity: 'enthalpy of the liquid',
      unit: 'kJ/kg',
      place: 2,
      source: 'IAPWS R7-97',
      ours: (row) => steam(row).phaseChange!.liquidEnthalpy(boiling(row)) / 1e3,
    },
    {
      quantity: 'enthalpy of the vapour',
      unit: 'kJ/kg',
      place: 3,
      source: 'IAPWS R7-97',
      ours: (row) => steam(row).phaseChange!.vapourEnthalpy(boiling(row)) / 1e3,
    },
    {
      quantity: 'latent heat',
      unit: 'kJ/kg',
      place: 4,
      source: 'IAPWS R7-97',
      ours: (row) =>
        (steam(row).phaseChange!.vapourEnthalpy(boiling(row)) - steam(row).enthalpy(boiling(row))) / 1e3,
    },
    {
      quantity: 'density of the liquid',
      unit: 'kg/m³',
      place: 5,
      source: 'IAPWS R7-97',
      ours: (row) => steam(row).density!(boiling(row)),
    },
    {
      quantity: 'density of the vapour',
      unit: 'kg/m³',
      place: 6,
      source: 'IAPWS R7-97',
      ours: (row) => 1 / waterVapourState(boiling(row), row[0]! * 1e5).volume,
    },
    {
      quantity: 'specific heat of the liquid',
      unit: 'kJ/(kg·K)',
      place: 7,
      source: 'IAPWS R7-97',
      ours: (row) => steam(row).specificHeat(boiling(row)) / 1e3,
    },
    {
      quantity: 'viscosity of the liquid',
      unit: 'Pa·s',
      place: 8,
      source: 'IAPWS R12-08',
      ours: (row) => steam(row).viscosity!(boiling(row)),
    },
    {
      quantity: 'conductivity of the liquid (theirs with critical enhancement)',
      unit: 'W/(m·K)',
      place: 9,
      source: 'IAPWS R15-11',
      tolerance: digits(9, 'the critical enhancement, which is left out: see `waterConductivity`', 2.8e-3),
      ours: (row) => steam(row).conductivity!(boiling(row)),
    },
  ];
  return columnChecks('saturated steam, 1 to 20 bar', columns, rows, 'bar');
}

function steamByTemperature(): Check[] {
  const { rows } = cases.saturated_steam_by_temperature;
  const steam = makeFluid({ kind: 'steam', pressure: null });
  const { vapourEnthalpy, liquidEnthalpy } = steam.phaseChange!;
  const at = ([temperature]: number[]) => temperature!;
  const columns: SteamColumn[] = [
    {
      quantity: 'saturation pressure',
      unit: 'MPa',
      place: 1,
      source: 'IAPWS R7-97',
      ours: (row) => saturationPressure(at(row)) / 1e6,
    },
    {
      quantity: 'enthalpy of the vapour, by formula',
      unit: 'kJ/kg',
      place: 3,
      source: 'IAPWS R7-97',
      ours: (row) => saturatedVapourEnthalpy(at(row)) / 1e3,
    },
    {
      quantity: 'enthalpy of the vapour, by table',
      unit: 'kJ/kg',
      place: 3,
      source: 'IAPWS R7-97',
      tolerance: TABULATED,
      ours: (row) => vapourEnthalpy(at(row)) / 1e3,
    },
    {
      quantity: 'enthalpy of the liquid, by table',
      unit: 'kJ/kg',
      place: 2,
      source: 'IAPWS R7-97',
      tolerance: TABULATED,
      ours: (row) => liquidEnthalpy(at(row)) / 1e3,
    },
    {
      quantity: 'latent heat, by table',
      unit: 'kJ/kg',
      place: 4,
      source: 'IAPWS R7-97',
      tolerance: TABULATED,
      ours: (row) => (vapourEnthalpy(at(row)) - steam.enthalpy(at(row))) / 1e3,
    },
  ];
  return columnChecks('saturated steam by temperature', columns, rows, '°C');
}

export function steamChecks(): Check[] {
  return [...steamByPressure(), ...steamByTemperature()];
}
