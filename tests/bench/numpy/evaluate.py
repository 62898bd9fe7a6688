"""The evaluation of lib/core/fouling in NumPy: the same formulas over whole arrays, to be timed and compared."""

import numpy as np
from formulas import EFFECTIVENESS, film_resistance, rate
from screening import require_none_frozen, screen_values, spikes, standard_uncertainty, unsteady

STEP = 1e-5
TEMPERATURE_STEP = 0.01
GREATEST_IMBALANCE = 0.25


def linearise(hot, cold, x):
    """exchange/reconcile: Qh − Qc and its derivatives to the six values"""
    hot_drop = hot.enthalpy(x[0]) - hot.enthalpy(x[1])
    cold_rise = cold.enthalpy(x[3]) - cold.enthalpy(x[2])
    g = np.empty_like(x)
    g[0], g[1] = x[4] * hot.specific_heat(x[0]), -x[4] * hot.specific_heat(x[1])
    g[2], g[3] = x[5] * cold.specific_heat(x[2]), -x[5] * cold.specific_heat(x[3])
    g[4], g[5] = hot_drop, -cold_rise
    return x[4] * hot_drop - x[5] * cold_rise, g


def reconcile(hot, cold, measured, sigma, first):
    """exchange/reconcile: all readings at once until the last one is closed"""
    imbalance, g = first
    variance_of = sigma * sigma
    x = measured
    for _ in range(50):
        multiplier = (imbalance + np.sum(g * (measured - x), axis=0)) / np.sum(g * g * variance_of, axis=0)
        following = measured - multiplier * variance_of * g
        step = np.max(np.abs(following - x) / sigma)
        x = following
        imbalance, g = linearise(hot, cold, x)
        closed = np.abs(imbalance) <= 1e-12 * (np.abs(x[4] * g[4]) + np.abs(x[5] * g[5])) / 2
        if step <= 1e-9 and np.all(closed):
            return x, g
    raise ValueError("a balance does not close")


def sensitivities(p, hot, cold, x, g, r):
    """fouling/sensitivities: derivatives of duty, ln U and Rf to the six values"""
    effectiveness = EFFECTIVENESS[p["kind"]]
    duty = np.zeros_like(x)
    duty[0], duty[1], duty[4] = g[0], g[1], g[4]
    log_u = duty / r["duty"]
    ntu, reached, ratio = r["ntu"], r["effectiveness"], r["ratio"]
    greatest = x[0] - x[2]
    larger = reached * greatest
    step = STEP * ntu
    in_ntu = (effectiveness(ntu + step, ratio) - effectiveness(ntu - step, ratio)) / (2 * step)
    step = STEP * ratio
    in_ratio = (effectiveness(ntu, ratio) - effectiveness(ntu, ratio - step)) / step
    by_effectiveness = 1 / (ntu * in_ntu)
    by_ratio = -in_ratio * by_effectiveness
    by_greatest = (-by_effectiveness * reached) / greatest
    by_larger = -1 / larger + by_effectiveness / greatest - (by_ratio * ratio) / larger
    by_smaller = by_ratio / larger
    to_hot = np.where(r["hot_is_smaller"], by_larger, by_smaller)
    to_cold = np.where(r["hot_is_smaller"], by_smaller, by_larger)
    log_u[0] += by_greatest + to_hot
    log_u[1] -= to_hot
    log_u[2] -= by_greatest + to_cold
    log_u[3] += to_cold
    fouling = -log_u / r["overallU"]
    films = ((p["clean"]["hot"], hot, r["hot_film"], 0, 4), (p["clean"]["cold"], cold, r["cold_film"], 2, 5))
    for film, fluid, here, inlet, flow in films:
        fouling[flow] += film["exponent"] * here / x[flow]
        mean = (x[inlet] + x[inlet + 1]) / 2
        step = np.where(mean < (fluid.minimum + fluid.maximum) / 2, TEMPERATURE_STEP, -TEMPERATURE_STEP)
        by_mean = (film_resistance(film, fluid, x[flow], mean + step) - here) / step / 2
        fouling[inlet] -= by_mean
        fouling[inlet + 1] -= by_mean
    return duty, log_u, fouling


def parts(sensitivity, g, sigma):
    """fouling/uncertainty: squared contribution of each sensor through the closed balance"""
    weighted = g * sigma * sigma
    multiplier = np.sum(sensitivity * weighted, axis=0) / np.sum(g * weighted, axis=0)
    return ((sensitivity - multiplier * g) * sigma) ** 2


def evaluate(p, hot, cold, time, columns):
    """fouling/evaluate-readings: screening, balance, conductance, fouling, lost duty, uncertainties"""
    bit, s = p["reasons"], p["settings"]
    n = len(time)
    reasons = screen_values(p, columns, hot, cold)
    require_none_frozen(p, time, columns)
    usable = np.flatnonzero(reasons == 0)
    spiked = spikes(p, time, columns, usable)
    reasons[usable[spiked]] |= bit["spike"]
    true_values = np.flatnonzero((reasons & ~np.uint32(bit["unit-off"] | bit["flow-below-turndown"])) == 0)
    moving = np.zeros(n, bool)
    moving[true_values[unsteady(p, time, columns, true_values)]] = True
    nothing_left = np.uint32(bit["missing"] | bit["out-of-range"] | bit["outside-fluid-range"] | bit["unit-off"])
    rows = np.flatnonzero((reasons & nothing_left) == 0)
    x = np.stack([column[rows] for column in columns])
    sigma = np.stack([standard_uncertainty(sensor, values) for sensor, values in zip(p["sensors"], x)])
    found = np.where(moving[rows], np.uint32(bit["not-steady"]), np.uint32(0))
    smallness = np.minimum(
        (x[0] - x[3]) / np.sqrt(sigma[0] * sigma[0] + sigma[3] * sigma[3]),
        (x[1] - x[2]) / np.sqrt(sigma[1] * sigma[1] + sigma[2] * sigma[2]),
    )
    is_reversed = (x[0] <= x[2]) | (x[0] <= x[1]) | (x[3] <= x[2])
    found |= np.where(smallness < s["terminalDifferenceMultiple"], np.uint32(bit["terminal-difference-too-small"]), np.uint32(0))
    if np.any(is_reversed):
        raise ValueError("reversed temperatures are not covered here")
    imbalance, g = linearise(hot, cold, x)
    hot_duty, cold_duty = x[4] * g[4], -x[5] * g[5]
    mean = (hot_duty + cold_duty) / 2
    balance = (hot_duty - cold_duty) / mean
    own = np.sqrt(np.sum(g * g * sigma * sigma, axis=0)) / np.abs(mean)
    allowed = np.maximum(s["balanceTolerance"], np.minimum(GREATEST_IMBALANCE, s["balanceUncertaintyMultiple"] * own))
    found |= np.where(np.abs(balance) <= allowed, np.uint32(0), np.uint32(bit["balance-not-closed"]))
    x, g = reconcile(hot, cold, x, sigma, (imbalance, g))
    r = {"hotDuty": hot_duty, "coldDuty": cold_duty, "balance": balance, "duty": x[4] * g[4]}
    r["hotMassFlow"], r["coldMassFlow"] = x[4], x[5]
    r.update(rate(p["kind"], r["duty"], *x[:4]))
    r["overallU"] = r["conductance"] / p["area"]
    if not np.all(r["overallU"] > 0):
        raise ValueError("an effectiveness above its limit is not covered here")
    r["hot_film"] = film_resistance(p["clean"]["hot"], hot, x[4], (x[0] + x[1]) / 2)
    r["cold_film"] = film_resistance(p["clean"]["cold"], cold, x[5], (x[2] + x[3]) / 2)
    r["cleanU"] = 1 / (p["clean"]["wall"] + r["hot_film"] + r["cold_film"])
    r["foulingResistance"] = 1 / r["overallU"] - 1 / r["cleanU"]
    r["cleanliness"] = r["overallU"] / r["cleanU"]
    clean = EFFECTIVENESS[p["kind"]](r["cleanU"] * p["area"] / r["smallest"], r["ratio"])
    r["lostDuty"] = clean * r["smallest"] * (x[0] - x[2]) - r["duty"]
    duty, log_u, fouling = sensitivities(p, hot, cold, x, g, r)
    shares = np.array([sensor["systematicShare"] for sensor in p["sensors"]])[:, None]
    r["dutyUncertainty"] = np.sqrt(np.sum(parts(duty, g, sigma), axis=0))
    r["overallUUncertainty"] = r["overallU"] * np.sqrt(np.sum(parts(log_u, g, sigma), axis=0))
    of_fouling = parts(fouling, g, sigma)
    r["foulingResistanceUncertainty"] = np.sqrt(np.sum(of_fouling, axis=0))
    r["foulingResistanceSystematic"] = np.sqrt(np.sum(of_fouling * shares, axis=0))
    screened_out = reasons[rows] != 0
    reasons[rows] |= np.where(screened_out, np.uint32(0), found)
    result = {}
    for name in p["columns"]:
        result[name] = np.full(n, np.nan)
        result[name][rows] = r[name]
    return reasons, result


def medians(values, accepted, count):
    """Median of the accepted readings of each day: the others sort behind them."""
    ordered = np.sort(np.where(accepted, values, np.inf), axis=1)
    below, above = np.maximum(count - 1, 0) // 2, np.maximum(count, 1) // 2
    at = lambda k: np.take_along_axis(ordered, k[:, None], axis=1)[:, 0]
    low, high = at(below), at(above)
    return np.where(count > 0, low + np.where(above > below, 0.5 * (high - low), 0.0), np.nan)


def daily(p, reasons, result, columns):
    """series/daily-figures, of whole days of 24 readings"""
    by_day = lambda column: column.reshape(-1, 24)
    accepted = by_day(reasons == 0)
    count = accepted.sum(axis=1)
    names = ["duty", "overallU", "cleanU", "foulingResistance", "lostDuty", "hotMassFlow", "coldMassFlow"]
    figures = {name: medians(by_day(result[name]), accepted, count) for name in names}
    for name, column in zip(["hotIn", "hotOut", "coldIn", "coldOut"], columns):
        figures[name] = medians(by_day(column), accepted, count)
    away = np.abs(by_day(result["foulingResistance"]) - figures["foulingResistance"][:, None])
    scatter = 1.4826 * medians(away, accepted, count)
    systematic = medians(by_day(result["foulingResistanceSystematic"]), accepted, count)
    combined = medians(by_day(result["foulingResistanceUncertainty"]), accepted, count)
    stated = np.sqrt(np.maximum(0, combined * combined - systematic * systematic))
    random = np.where(count >= 3, np.maximum(stated, scatter), stated)
    spread = (random * random) / np.maximum(1, 2 / np.pi * count) + systematic * systematic
    figures["foulingResistanceUncertainty"] = np.sqrt(spread)
    figures["foulingResistanceSystematic"], figures["foulingResistanceScatter"] = systematic, scatter
    balance = by_day(result["balance"])
    sound = ((by_day(reasons) & ~np.uint32(p["reasons"]["balance-not-closed"])) == 0) & ~np.isnan(balance)
    figures["balance"] = medians(balance, sound, sound.sum(axis=1))
    return figures
