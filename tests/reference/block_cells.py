"""A block of cells warmed through its faces, stepped plainly: what the product of three walls is judged by."""

import numpy as np


def warm_block(size, *, conductivity, heat, side, top, bottom, start_c, air_c, until_c, cells=15):
    """Hours until the coldest cell is at the limit, and the mean and the coldest after a day."""
    depths = [each / cells for each in size]
    step_s = min(depths) ** 2 * heat / conductivity / 7
    faces = ((side, side), (side, side), (bottom, top))
    now, seconds, after_day = np.full((cells, cells, cells), float(start_c)), 0.0, None
    while now.min() < until_c or after_day is None:
        gain = np.zeros_like(now)
        for axis, (depth, (low, high)) in enumerate(zip(depths, faces, strict=True)):
            along = np.moveaxis(now, axis, 0)
            into = np.moveaxis(gain, axis, 0)
            flow = conductivity * np.diff(along, axis=0) / depth**2
            into[:-1] += flow
            into[1:] -= flow
            into[0] += (air_c - along[0]) / (1 / low + depth / 2 / conductivity) / depth
            into[-1] += (air_c - along[-1]) / (1 / high + depth / 2 / conductivity) / depth
        now = now + step_s / heat * gain
        seconds += step_s
        if after_day is None and seconds >= 86400:
            after_day = (float(now.mean()), float(now.min()))
        if now.min() < until_c:
            last_s = seconds
    return last_s / 3600, *after_day
