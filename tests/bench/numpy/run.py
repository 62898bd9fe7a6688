"""python3 run.py FOLDER RUNS: times the formulas on input.json and input.bin, writes output.bin, prints CPU times and one wall time [ms] as JSON."""

import json
import sys
import time as clock
from pathlib import Path

import numpy as np
from evaluate import daily, evaluate
from formulas import Fluid, rate

folder, runs = Path(sys.argv[1]), int(sys.argv[2])
p = json.loads((folder / "input.json").read_text())
n, units = p["readings"], p["units"]
data = np.fromfile(folder / "input.bin").reshape(7, units * n)
time, columns = data[0], data[1:]
hot, cold = Fluid(p["hot"]), Fluid(p["cold"])
np.seterr(all="ignore")


def timed(act, now=clock.process_time):
    times = []
    for _ in range(runs):
        began = now()
        result = act()
        times.append((now() - began) * 1000)
    return float(np.median(times)), result


def properties(t):
    return hot.density(t), hot.specific_heat(t), hot.viscosity(t), hot.conductivity(t)


def conductance(x):
    duty = x[4] * 4180.0 * (x[0] - x[1])
    r = rate(p["kind"], duty, *x[:4])
    return r["ntu"], r["conductance"], r["lmtd"], r["correction"]


def whole(u):
    rows = slice(u * n, (u + 1) * n)
    own = [column[rows] for column in columns]
    reasons, result = evaluate(p, hot, cold, time[rows], own)
    return reasons, result, daily(p, reasons, result, own)


def over_units(act):
    for u in range(units):
        result = act(u)
        if u == 0:
            first = result
    return first


times = {}
states = np.fromfile(folder / "states.bin")
sound = int(states[0])
state = states[2:].reshape(6, sound)
slices = [slice(start, start + n) for start in range(0, sound, n)]


def in_slices(act):
    """A unit-year at a time, so that the arrays stay in the processor's cache."""
    found = [act(rows) for rows in slices]
    return [np.concatenate(one) for one in zip(*found)]


times["properties"], of_properties = timed(lambda: in_slices(lambda rows: properties(state[0, rows])))
times["conductance"], of_conductance = timed(lambda: in_slices(lambda rows: conductance(state[:, rows])))
times["unit"], (reasons, result, figures) = timed(lambda: whole(0))
times["units"], _ = timed(lambda: over_units(whole))
times["wall"], _ = timed(lambda: over_units(whole), clock.perf_counter)
out = [reasons] + [result[name] for name in p["columns"]] + [figures[name] for name in p["dailyColumns"]]
np.concatenate([*of_properties, *of_conductance, *out]).astype(float).tofile(folder / "output.bin")
print(json.dumps(times))
