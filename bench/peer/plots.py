"""What the driver page computes when its high-pass is typed, in NumPy: whole arrays, one thread.

Independent code by the same formulas: the limits of a driver in a door on 220 points, and for each corner of the table the
tightest point of 1150. Call: plots.py JSON RUNS  ->  JSON {ms: [..], travelMm, binding: [..]}
"""
import json
import sys
import time

import numpy as np

RHO, C = 1.204, 343.2


def per_volt(given, f):
    """Level pressure and stroke per volt of a driver with nothing behind it."""
    w = 2 * np.pi * f
    ws = 2 * np.pi * given["fsHz"]
    mms, re = given["mmsKg"], given["reOhm"]
    cms = 1 / (ws * ws * mms)
    rms = ws * mms / given["qms"]
    bl = np.sqrt(ws * mms * re / given["qes"])
    ze = re + given["sourceOhm"] + 1j * w * given["leH"]
    zm = rms + 1j * (w * mms - 1 / (w * cms))
    u = np.abs(bl / (ze * zm + bl * bl))
    return RHO * w * given["sdM2"] * u / (2 * np.pi), np.sqrt(2) * u / w


def channel(given, corner, f):
    """Linkwitz-Riley high-pass at `corner` and the low-pass of the plan, as ratios."""
    low = 1 / (1 + (f / given["lowPassHz"]) ** given["order"])
    return low if corner is None else low / (1 + (corner / f) ** given["order"])


def page(given):
    f = np.geomspace(given["fromHz"], given["toHz"], 220)
    p, x = per_volt(given, f)
    h = channel(given, given["looked"], f)
    level = 20 * np.log10(p / 20e-6)
    travel = level + 20 * np.log10(given["xmaxM"] / x)
    heat = level + 10 * np.log10(given["thermalW"] * given["reOhm"])
    amplifier = level + 20 * np.log10(given["ampVrms"] * h)
    stroke = 1000 * x * given["ampVrms"] * h
    binding = []
    for corner in given["corners"]:
        g = np.geomspace(20, 20000, 1150)
        _, xg = per_volt(given, g)
        hg = channel(given, corner, g)
        binding.append([float(np.min(given["xmaxM"] / xg / hg)), float(np.max(1000 * xg * given["ampVrms"] * hg))])
    return travel, heat, amplifier, stroke, binding


given = json.loads(sys.argv[1])
ms = []
for _ in range(int(sys.argv[2])):
    began = time.perf_counter()
    travel, heat, amplifier, stroke, binding = page(given)
    ms.append(1000 * (time.perf_counter() - began))
print(json.dumps({"ms": ms, "travelMm": stroke.tolist(), "binding": binding}))
