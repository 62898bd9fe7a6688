"""Screening of hourly readings over whole arrays: values, frozen sensors, spikes, steadiness (lib/core/checks)."""

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

HOUR = 3_600_000.0
DAY = 24 * HOUR
SPIKE_REACH = 2 * DAY
CONSISTENCY = 1.4826


def standard_uncertainty(sensor, values):
    return sensor["absolute"] + sensor["relative"] * np.abs(values)


def screen_values(p, columns, hot, cold):
    """checks/screen-values: the first reason that applies, in this order."""
    bit, s = p["reasons"], p["settings"]
    hot_in, hot_out, cold_in, cold_out, hot_flow, cold_flow = columns
    hot_share, cold_share = hot_flow / p["design"]["hotFlow"], cold_flow / p["design"]["coldFlow"]
    missing = sum(np.isnan(column).astype(np.int8) for column in columns)
    if np.any(missing == 1):
        raise ValueError("a reading with one value missing is not covered here")
    beyond = lambda v, low, high: (v < low) | (v > high)
    low, high = s["minimumTemperature"], s["maximumTemperature"]
    out = beyond(hot_share, -s["offFlowShare"], s["maximumFlowShare"])
    out |= beyond(cold_share, -s["offFlowShare"], s["maximumFlowShare"])
    for column in columns[:4]:
        out |= beyond(column, low, high)
    outside = beyond(hot_in, hot.minimum, hot.maximum) | beyond(hot_out, hot.minimum, hot.maximum)
    outside |= beyond(cold_in, cold.minimum, cold.maximum) | beyond(cold_out, cold.minimum, cold.maximum)
    off = (hot_share < s["offFlowShare"]) & (cold_share < s["offFlowShare"])
    turndown = (hot_share < s["turndownFlowShare"]) | (cold_share < s["turndownFlowShare"])
    names = ["missing", "out-of-range", "outside-fluid-range", "unit-off", "flow-below-turndown"]
    found = [missing > 1, out, outside, off, turndown]
    return np.select(found, [np.uint32(bit[name]) for name in names], np.uint32(0))


def require_none_frozen(p, time, columns):
    """checks/frozen-sensors: finds runs of one value; what is made of a run is not covered here."""
    for column in columns:
        known = ~np.isnan(column)
        values, at = column[known], time[known]
        changes = np.flatnonzero(values[1:] != values[:-1]) + 1
        starts = np.concatenate(([0], changes))
        ends = np.concatenate((changes, [len(values)])) - 1
        if np.any(at[ends] - at[starts] >= p["settings"]["frozenHours"] * HOUR):
            raise ValueError("a sensor that stands still is not covered here")


def median_of_sorted(rows):
    middle = rows.shape[1] // 2
    if rows.shape[1] % 2 == 1:
        return rows[:, middle]
    return (rows[:, middle - 1] + rows[:, middle]) / 2


def scale_of(rows, centre):
    deviations = np.abs(rows - centre[:, None])
    deviations.sort(axis=1)
    return CONSISTENCY * median_of_sorted(deviations)


def distances(values):
    """From the nearer of two neighbours where a value stands out from both to the same side, else 0."""
    result = np.zeros_like(values)
    before, after = values[1:-1] - values[:-2], values[1:-1] - values[2:]
    nearer = np.minimum(np.abs(before), np.abs(after))
    result[1:-1] = np.where(before * after > 0, nearer, 0.0)
    return result


def scores(windows, value, distance, floor, share):
    """checks/spikes, deviation: of the values in the middle of their windows, floor the least scale."""
    ordered = np.sort(windows, axis=1)
    centre = median_of_sorted(ordered)
    result = np.abs(value - centre)
    # Scales are wanted of those alone that lie beyond the share of their floor.
    far = np.flatnonzero(result > share * floor)
    result[far] /= np.maximum(scale_of(ordered[far], centre[far]), floor[far])
    mask = np.ones(len(value), bool)
    mask[far] = False
    result[mask] = 0.0
    apart = np.flatnonzero(distance > share * floor)
    steps = np.diff(windows[apart], axis=1)
    steps.sort(axis=1)
    noise = scale_of(steps, median_of_sorted(steps)) / np.sqrt(2)
    result[apart] = np.maximum(result[apart], distance[apart] / np.maximum(noise, floor[apart]))
    return result


def window_scores(windows, value, distance, floor, share):
    score = scores(windows, value, distance, floor, share)
    again = np.flatnonzero(score > share)
    if len(again) > 0:
        steps = np.abs(np.diff(windows[again], axis=1))
        steps[steps == 0] = np.inf
        half = steps.min(axis=1) / 2
        coarse = np.isfinite(half) & (half > floor[again])
        at = again[coarse]
        score[at] = scores(windows[at], value[at], distance[at], half[coarse], share)
    return score


def spikes(p, time, columns, rows):
    """checks/spikes"""
    half, threshold = p["settings"]["spikeHalfWindow"], p["settings"]["spikeThreshold"]
    share = 2 / 3 * threshold
    at = time[rows]
    if np.any(at[half:] - at[:-half] > SPIKE_REACH):
        raise ValueError("windows cut short by a gap are not covered here")
    far = np.zeros(len(rows), np.uint8)
    near = np.zeros(len(rows), np.uint8)
    for place, column in enumerate(columns):
        values = column[rows]
        floor = standard_uncertainty(p["sensors"][place], values)
        distance = distances(values)
        score = np.zeros(len(values))
        inner = slice(half, len(values) - half)
        whole = sliding_window_view(values, 2 * half + 1)
        score[inner] = window_scores(whole, values[inner], distance[inner], floor[inner], share)
        for i in [*range(half), *range(len(values) - half, len(values))]:
            cut = values[max(0, i - half) : i + half + 1][None, :]
            one = slice(i, i + 1)
            score[one] = window_scores(cut, values[one], distance[one], floor[one], share)
        far |= (score > threshold).astype(np.uint8) << place
        near |= (score > share).astype(np.uint8) << place
    return (far != 0) & (near == far) & ((far & (far - 1)) == 0)


def unsteady(p, time, columns, rows):
    """checks/unsteady, of readings further apart than the unit settles: there the ratio test has no say."""
    settling = p["settings"]["settlingMinutes"] * 60_000.0
    at = time[rows]
    apart = np.diff(at)
    if np.any(apart <= settling):
        raise ValueError("readings that come faster than the unit settles are not covered here")
    interval = settling / apart
    hot_in, hot_out, cold_in, cold_out = (column[rows][1:] for column in columns[:4])
    changes = [np.abs(hot_in - hot_out)] * 2 + [np.abs(cold_out - cold_in)] * 2
    marked = np.zeros(len(rows), bool)
    for place, column in enumerate(columns):
        values = column[rows]
        moved = np.abs(np.diff(values)) * interval
        whole = changes[place] if place < 4 else np.abs(values[1:])
        noise = standard_uncertainty(p["sensors"][place], values[1:]) * np.maximum(1, np.sqrt(2) * interval)
        moves = (moved > p["settings"]["steadyMultiple"] * noise) & (moved > 0.05 * whole)
        marked[1:] |= moves & (apart <= DAY)
    return marked
