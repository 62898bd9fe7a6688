import { type HelmholtzModel, vibrationHeat } from './helmholtz';

/** Molar mass of dry air [kg/mol] (IAPWS G8-10, table 1) and the equation's molar gas constant [J/(mol·K)]. */
const MOLAR_MASS = 28.96546e-3;
const MOLAR_GAS_CONSTANT = 8.31451;

/** Powers of τ in the ideal-gas part: n·τ^t. */
const IDEAL_POWERS = [
  [-3, 0.6057194e-7],
  [-2, -0.210274769e-4],
  [-1, -0.158860716e-3],
  [1.5, -0.19536342e-3],
] as const;

/** −τ²·∂²φ°/∂τ² of n·ln(2/3 + exp(θτ)), the last term of the ideal-gas part. */
function lastTerm(tau: number): number {
  const x = 87.31279 * tau;
  return (0.197938904 * x * x * (2 / 3) * Math.exp(-x)) / (1 + (2 / 3) * Math.exp(-x)) ** 2;
}

/**
 * Dry air as one substance: E. W. Lemmon, R. T. Jacobsen, S. G. Penoncello, D. G. Friend, J. Phys. Chem. Ref. Data 29
 * (2000) 331–385, tables 12 and 13, with the molar mass of IAPWS G8-10.
 */
export const DRY_AIR: HelmholtzModel = {
  gasConstant: MOLAR_GAS_CONSTANT / MOLAR_MASS,
  reducingTemperature: 132.6312,
  reducingDensity: 10447.7 * MOLAR_MASS,
  idealHeat: (tau) =>
    2.490888032 +
    0.791309509 * vibrationHeat(25.36365 * tau) +
    0.212236768 * vibrationHeat(16.90741 * tau) +
    lastTerm(tau) -
    IDEAL_POWERS.reduce((sum, [t, n]) => sum + n * t * (t - 1) * tau ** t, 0),
  powers: [
    [0, 1, 0, 0.118160747229],
    [0, 1, 0.33, 0.713116392079],
    [0, 1, 1.01, -0.161824192067e1],
    [0, 2, 0, 0.714140178971e-1],
    [0, 3, 0, -0.865421396646e-1],
    [0, 3, 0.15, 0.134211176704],
    [0, 4, 0, 0.112626704218e-1],
    [0, 4, 0.2, -0.420533228842e-1],
    [0, 4, 0.35, 0.349008431982e-1],
    [0, 6, 1.35, 0.164957183186e-3],
    [1, 1, 1.6, -0.101365037912],
    [1, 3, 0.8, -0.17381369097],
    [1, 5, 0.95, -0.472103183731e-1],
    [1, 6, 1.25, -0.122523554253e-1],
    [2, 1, 3.6, -0.146629609713],
    [2, 3, 6, -0.316055879821e-1],
    [2, 11, 3.25, 0.233594806142e-3],
    [3, 1, 3.5, 0.148287891978e-1],
    [3, 3, 15, -0.938782884667e-2],
  ],
  bells: [],
};

/** Terms n·τ^t·δ^d·exp(−δ^l), l = 0 for no exponential: E. W. Lemmon, R. T. Jacobsen, Int. J. Thermophys. 25 (2004) 21–69. */
type TransportTerms = readonly (readonly [n: number, t: number, d: number, l: number])[];

/** Table III, in µPa·s. */
export const AIR_VISCOSITY: TransportTerms = [
  [10.72, 0.2, 1, 0],
  [1.122, 0.05, 4, 0],
  [0.002019, 2.4, 9, 0],
  [-8.876, 0.6, 1, 1],
  [-0.02916, 3.6, 8, 1],
];

/** Table IV, in mW/(m·K). */
export const AIR_CONDUCTIVITY: TransportTerms = [
  [8.743, 0.1, 1, 0],
  [14.76, 0, 2, 0],
  [-16.62, 0.5, 3, 2],
  [3.793, 2.7, 7, 2],
  [-6.142, 0.3, 7, 2],
  [-0.3778, 1.3, 11, 2],
];

/** Table II: collision integral, powers of ln(T/103.3 K). */
export const AIR_COLLISION = [0.431, -0.4623, 0.08406, 0.005341, -0.00331];
