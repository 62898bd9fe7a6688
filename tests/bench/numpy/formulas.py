"""Fluid properties and rating formulas over whole arrays; each is the formula of lib/core named beside it."""

import numpy as np


class Table:
    """Piecewise cubics over a uniform grid (fluids/property-table)."""

    def __init__(self, told, minimum, maximum):
        cubics = np.array(told["coefficients"]).reshape(-1, 4)
        self.c = [np.ascontiguousarray(cubics[:, k]) for k in range(4)]
        self.minimum = minimum
        self.per_degree = told["intervals"] / (maximum - minimum)
        self.last = told["intervals"] - 1

    def __call__(self, t):
        position = (t - self.minimum) * self.per_degree
        i = np.minimum(position.astype(np.intp), self.last)
        x = position - i
        c0, c1, c2, c3 = self.c
        return c0[i] + x * (c1[i] + x * (c2[i] + x * c3[i]))


class Fluid:
    """A tabulated fluid; its enthalpy is the exact integral of its specific heat (fluids/tabulate)."""

    def __init__(self, told):
        self.minimum, self.maximum = told["minimum"], told["maximum"]
        table = lambda name: Table(told[name], self.minimum, self.maximum)
        self.specific_heat = table("specificHeat")
        self.viscosity, self.conductivity = table("viscosity"), table("conductivity")
        self.density = table("density")
        heat = self.specific_heat
        self.step = (self.maximum - self.minimum) / (heat.last + 1)
        c0, c1, c2, c3 = heat.c
        self.b = [c0, c1 / 2, c2 / 3, c3 / 4]
        gains = self.step * (c0 + (c1 / 2 + (c2 / 3 + c3 / 4)))
        self.starts = np.concatenate(([told["start"]], told["start"] + np.cumsum(gains)))

    def enthalpy(self, t):
        position = (t - self.minimum) / self.step
        i = np.minimum(position.astype(np.intp), self.specific_heat.last)
        x = position - i
        b0, b1, b2, b3 = self.b
        return self.starts[i] + self.step * x * (b0[i] + x * (b1[i] + x * (b2[i] + x * b3[i])))


def lmtd(d1, d2):
    """exchange/lmtd"""
    small = np.minimum(d1, d2)
    difference = np.maximum(d1, d2) - small
    mean = np.where(difference == 0, small, difference / np.log1p(difference / small))
    return np.where(small > 0, mean, np.where(small == 0, 0.0, np.nan))


def counter_ntu(effectiveness, ratio):
    """exchange/pure-flow"""
    gap = 1 - ratio
    driven = effectiveness / (1 - effectiveness)
    return np.where(gap == 0, driven, np.log1p(driven * gap) / gap)


def counter_effectiveness(ntu, ratio):
    gap = 1 - ratio
    decay = -np.expm1(-ntu * gap)
    return np.where(gap == 0, 1 / (1 + 1 / ntu), decay / (gap + ratio * decay))


def shell_ntu(effectiveness, ratio):
    """exchange/tube-passes: one shell, two tube passes"""
    root = np.sqrt(1 + ratio * ratio)
    return np.log1p((2 * root * effectiveness) / (2 - effectiveness * (1 + ratio + root))) / root


def shell_effectiveness(ntu, ratio):
    root = np.sqrt(1 + ratio * ratio)
    decay = -np.expm1(-ntu * root)
    return (2 * decay) / ((1 + ratio) * decay + root * (2 - decay))


NTU = {"counter": counter_ntu, "shell": shell_ntu}
EFFECTIVENESS = {"counter": counter_effectiveness, "shell": shell_effectiveness}


def rate(kind, duty, hot_in, hot_out, cold_in, cold_out):
    """fouling/conductance-figures, rateState: effectiveness, NTU, UA, LMTD, F and what the next steps need."""
    hot_rate, cold_rate = duty / (hot_in - hot_out), duty / (cold_out - cold_in)
    smallest = np.minimum(hot_rate, cold_rate)
    ratio = smallest / np.maximum(hot_rate, cold_rate)
    reached = duty / (smallest * (hot_in - cold_in))
    ntu = NTU[kind](reached, ratio)
    counter = ntu if kind == "counter" else counter_ntu(reached, ratio)
    return {
        "effectiveness": reached,
        "ntu": ntu,
        "conductance": ntu * smallest,
        "lmtd": lmtd(hot_in - cold_out, hot_out - cold_in),
        "correction": counter / ntu,
        "smallest": smallest,
        "ratio": ratio,
        "hot_is_smaller": hot_rate <= cold_rate,
    }


def film_resistance(film, fluid, flow, t):
    """clean/clean-conductance"""
    conductivity = film["conductivity"] / fluid.conductivity(t)
    specific_heat = film["specificHeat"] / fluid.specific_heat(t)
    viscosity = film["viscosity"] / fluid.viscosity(t)
    prandtl = np.cbrt(conductivity * conductivity * specific_heat * viscosity)
    return film["resistance"] * prandtl * (flow / film["flow"] * viscosity) ** -film["exponent"]
