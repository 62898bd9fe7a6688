/** Rows are powers of T − Tm, columns powers of x − xm, with T in K and x the mass fraction of glycol. */
export type GlycolTable = {
  name: string;
  /** Tm [K] */
  meanTemperature: number;
  /** xm [-] */
  meanFraction: number;
  /** kg/m³ */
  density: number[][];
  /** J/(kg·K) */
  specificHeat: number[][];
  /** natural logarithm of Pa·s */
  logViscosity: number[][];
  /** W/(m·K) */
  conductivity: number[][];
  /** Freezing point [K], powers of x − xm. */
  freezing: number[];
};

/** Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, IIR, Paris 2010: aqueous ethylene glycol. */
export const ETHYLENE_GLYCOL: GlycolTable = {
  name: 'ethylene glycol',
  meanTemperature: 304.878,
  meanFraction: 0.308462,
  density: [
    [1034, 131.1, 0.749, -106.2, -96.23, 489.1],
    [-0.4781, -0.6876, 0.7855, 1.229, -7.211, 0],
    [-0.002692, 0.004805, -0.003995, -0.01153, 0, 0],
    [4.725e-6, 1.69e-6, 4.982e-5, 0, 0, 0],
  ],
  specificHeat: [
    [3737, -1799, -993.3, 2610, 1537, -16180],
    [2.93, 10.46, 3.516, -1.189, -42.72, 0],
    [-0.004675, -0.04147, 0.05109, -0.1643, 0, 0],
    [-1.389e-5, 1.847e-5, -0.0007138, 0, 0, 0],
  ],
  logViscosity: [
    [-6.437255, 2.471, 0.03328, 1.659, 3.089, -18.65],
    [-0.0255, -0.01171, 0.01086, 0.003157, 0.01831, 0],
    [0.0001782, 0.0001052, 0.0001051, 0.0004063, 0, 0],
    [-7.669e-7, -1.634e-6, -6.475e-6, 0, 0, 0],
  ],
  conductivity: [
    [0.472, -0.4286, 0.1747, 0.03017, -0.1322, 0.2678],
    [0.0008903, -0.001473, 0.0006814, -0.002412, 0.002555, 0],
    [-1.058e-6, 1.059e-5, -3.612e-5, 4.004e-5, 0, 0],
    [-2.789e-9, -1.142e-8, 2.365e-8, 0, 0, 0],
  ],
  freezing: [257.9, -80.8, -133.4, -72.93, 100.6, 11.4],
};

/** Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, IIR, Paris 2010: aqueous propylene glycol. */
export const PROPYLENE_GLYCOL: GlycolTable = {
  name: 'propylene glycol',
  meanTemperature: 305.8583,
  meanFraction: 0.307031,
  density: [
    [1018, 76.04, -24.98, -155, -113.1, 234.2],
    [-0.5406, -0.945, 0.27, 2.829, -2.221, 0],
    [-0.002666, 0.005541, -0.004018, -0.007175, 0, 0],
    [1.347e-5, -1.343e-5, 3.376e-5, 0, 0, 0],
  ],
  specificHeat: [
    [3882, -1304, -1598, 353.9, 5000, -4959],
    [2.699, 5.07, 0.9534, 31.02, -71.35, 0],
    [-0.001659, -0.004752, 0.1167, -0.295, 0, 0],
    [-1.032e-5, 0.0001522, -0.000487, 0, 0, 0],
  ],
  logViscosity: [
    [-6.224055, 3.328, 0.5453, -3.9, -1.587, 35.64],
    [-0.03045, -0.03984, -0.00086, 0.1054, 0.04475, 0],
    [0.0002525, 0.0004332, -0.0001593, -0.001589, 0, 0],
    [-1.399e-6, -1.86e-6, -4.465e-7, 0, 0, 0],
  ],
  conductivity: [
    [0.4513, -0.4795, 0.2076, -0.09083, -0.05952, 0.2104],
    [0.0007955, -0.001678, 0.001563, -0.002518, -0.003605, 0],
    [3.482e-8, 8.941e-6, -4.615e-5, 6.543e-5, 0, 0],
    [-5.966e-9, 1.493e-8, 9.897e-8, 0, 0, 0],
  ],
  freezing: [259.9, -66.31, -109.4, -228.3, -340.9, 146.5],
};
