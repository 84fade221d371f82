"""The steps of `src/measurement/read-take.ts` for a sweep track with markers, in NumPy and SciPy on one thread.

Independent code by the same formulas, written as a NumPy user would: whole arrays, no loop over samples. It leaves out
what costs next to nothing (the wording of findings, the assembly of the answer), so it does no more than the reader.

Call: read_take.py TAKE.wav TRACK.json RUNS  ->  JSON {stages: {name: [ms]}, total: [ms], answer}
"""
import functools
import json
import sys
import time

import numpy as np
from scipy import fft as sf
from scipy.special import i0

TWO_PI = 2 * np.pi


def power_of_two_from(length):
    size = 1
    while size < length:
        size *= 2
    return size


# ---- files -------------------------------------------------------------------------------------------------------
def read_wav(path):
    """First channel of a 16 or 24 bit file, full scale = 1."""
    raw = np.fromfile(path, np.uint8)
    at, rate, channels, bits = 12, 0, 1, 24
    while at + 8 <= raw.size:
        size = int(raw[at + 4 : at + 8].view(np.uint32)[0])
        name = raw[at : at + 4].tobytes()
        if name == b"fmt ":
            head = raw[at + 8 : at + 24]
            channels, bits = int(head[2:4].view(np.uint16)[0]), int(head[14:16].view(np.uint16)[0])
            rate = int(head[4:8].view(np.uint32)[0])
        if name == b"data":
            data = raw[at + 8 : at + 8 + size]
            break
        at += 8 + size + (size & 1)
    step = bits // 8
    frames = data.size // (step * channels)
    data = data[: frames * step * channels].reshape(frames, channels * step)[:, :step]
    if bits == 16:
        return np.ascontiguousarray(data).view("<i2")[:, 0] / 32768.0, rate
    whole = np.zeros((frames, 4), np.uint8)
    whole[:, 1:] = data
    return whole.view("<i4")[:, 0] * 2.0**-31, rate


# ---- waves -------------------------------------------------------------------------------------------------------
def linear_chirp(kind, rate, level=0.0):
    frames = int(np.floor(kind["durationS"] * rate + 0.5))
    n = np.arange(frames)
    t = n / rate
    edge = frames // 4
    from_end = np.minimum(n, frames - 1 - n)
    weight = np.where(from_end < edge, 0.5 - 0.5 * np.cos(np.pi * (from_end + 0.5) / edge), 1.0)
    turns = kind["fromHz"] * t + (kind["toHz"] - kind["fromHz"]) * t * t / (2 * kind["durationS"])
    return 10 ** (level / 20) * weight * np.sin(TWO_PI * turns)


def exponential_sweep(shape, rate, offset, track_rate):
    frames_track = int(np.floor(shape["durationS"] * track_rate + 1e-9)) + 1
    last = (frames_track - 1) / track_rate
    frames = int(np.floor((last - offset) * rate + 1e-9)) + 1
    constant = shape["durationS"] / np.log(shape["toHz"] / shape["fromHz"])
    t = np.arange(frames) / rate + offset
    out = 10 ** (shape["levelDbfs"] / 20) * np.sin(TWO_PI * shape["fromHz"] * constant * np.expm1(t / constant))
    at = t * track_rate
    fade_in = round(shape.get("fadeInS", 0) * track_rate)
    fade_out = round(shape.get("fadeOutS", 0) * track_rate)
    rising = at < fade_in
    out[rising] *= 0.5 - 0.5 * np.cos(np.pi * at[rising] / fade_in)
    falling = at >= frames_track - fade_out
    out[falling] *= 0.5 + 0.5 * np.cos(
        np.pi * np.minimum(fade_out, at[falling] - (frames_track - fade_out) + 1) / fade_out
    )
    out[t < -1e-12] = 0
    return out


# ---- survey ------------------------------------------------------------------------------------------------------
def survey(x, rate):
    block = round(0.01 * rate)
    blocks = x.size // block
    whole = x[: blocks * block].reshape(blocks, block)
    block_power = np.einsum("ij,ij->i", whole, whole) / block
    high, low = x.max(), x.min()
    peak = max(high, -low)
    still = np.flatnonzero(x[1:] == x[:-1])
    dead = [g for g in np.split(still, np.flatnonzero(np.diff(still) > 1) + 1) if g.size + 1 >= max(8, round(0.002 * rate))]
    flat = []
    for top, near in ((high, x >= high - 1.5 / 32768), (-low, x <= low + 1.5 / 32768)):
        if top <= 0.9 * peak:
            continue
        at = np.flatnonzero(near)
        for group in np.split(at, np.flatnonzero(np.diff(at) > 1) + 1):
            if group.size >= 3:
                flat.append((int(group[0]), int(group.size)))
    return {
        "peak": peak,
        "mean": x.mean(),
        "rms": np.sqrt(x @ x / x.size),
        "blockPower": block_power,
        "dead": [(int(g[0]), g.size + 1) for g in dead],
        "flat": flat,
    }


# ---- markers -----------------------------------------------------------------------------------------------------
REACH = 8


def fine_kernel(step):
    tap = np.arange(2 * REACH)
    t = tap[None, :] - REACH + 1 - np.arange(step)[:, None] / step
    edge = t / REACH
    window = np.where(np.abs(edge) < 1, i0(11 * np.sqrt(np.maximum(0, 1 - edge * edge))), 0)
    return window / i0(11) * np.sinc(t)


def chirp_peaks(x, kinds, rate):
    """Normalised correlation on a grid as coarse as the band, the peaks kept read at the recording's samples."""
    chirps = [linear_chirp(kind, rate) for kind in kinds]
    longest = max(c.size for c in chirps)
    size = power_of_two_from(4 * longest)
    ends = [f for kind in kinds for f in (kind["fromHz"], kind["toHz"])]
    low = max(1, int(np.floor(0.9 * min(ends) * size / rate)))
    high = min(size // 2 - 1, int(np.ceil(1.1 * max(ends) * size / rate)))
    points = power_of_two_from(2 * (high - low + 1))
    step = size // points
    guard = (REACH + 2) * step
    hop = step * ((size - longest) // step) - 2 * guard
    blocks = int(np.ceil((x.size + longest + guard) / hop))
    padded = np.zeros((blocks - 1) * hop + size)
    padded[longest + guard : longest + guard + x.size] = x[: padded.size - longest - guard]
    view = np.lib.stride_tricks.as_strided(padded, (blocks, size), (hop * padded.itemsize, padded.itemsize))
    spectrum = sf.rfft(view, axis=1)[:, low : high + 1]
    centre = ((low + high) >> 1) - low

    def envelope(values):
        work = np.zeros((blocks, points), complex)
        work[:, : values.shape[1] - centre] = values[:, centre:]
        work[:, points - centre :] = values[:, :centre]
        return sf.ifft(work, axis=1, overwrite_x=True) * (2 / step)

    sound = envelope(spectrum)
    energy = np.zeros((blocks, points + 1))
    np.cumsum(0.5 * step * (sound.real**2 + sound.imag**2), axis=1, out=energy[:, 1:])
    kernel = fine_kernel(step)
    spacing = round(0.05 * rate)
    found = []
    for chirp in chirps:
        template = np.conj(sf.rfft(chirp, size)[low : high + 1])
        pairs = envelope(spectrum * template)
        chirp_energy = float(chirp @ chirp)
        begin = 0.5 - 0.5 / step
        end = (chirp.size - 0.5) / step + 0.5
        whole, part = int(np.floor(end)), end - np.floor(end)
        first, last = guard // step - 1, (guard + hop) // step + 1
        m = np.arange(first, last + 1)
        stop = np.minimum(points - 1, m + whole)
        local = (1 - part) * energy[:, stop] + part * energy[:, stop + 1]
        local -= (1 - begin) * energy[:, m] + begin * energy[:, m + 1]
        squares = (pairs.real[:, m] ** 2 + pairs.imag[:, m] ** 2) / (np.maximum(local, 1e-14 * chirp.size) * chirp_energy)
        middle = squares[:, 1:-1]
        top = (middle >= (0.85 * 0.12) ** 2) & (middle >= squares[:, :-2]) & (middle >= squares[:, 2:])
        rows, columns = np.nonzero(top)
        kept = []
        for row, column in zip(rows.tolist(), columns.tolist()):
            at = row * hop + (column + first + 1) * step
            square = squares[row, column + 1]
            if kept and at - kept[-1][0] < spacing:
                if square > kept[-1][1]:
                    kept[-1] = (at, square, row, column)
            else:
                kept.append((at, square, row, column))
        row = np.array([k[2] for k in kept], int)
        column = np.array([k[3] for k in kept], int)
        left, mid, right = squares[row, column], squares[row, column + 1], squares[row, column + 2]
        bend = left - 2 * mid + right
        at = np.round((column + first + 1 + np.where(bend < 0, 0.5 * (left - right) / bend, 0)) * step).astype(int)

        def square_at(sample):
            point, place = sample // step, sample % step
            taps = point[:, None] + np.arange(2 * REACH)[None, :] - REACH + 1
            return np.abs((pairs[row[:, None], taps] * kernel[place]).sum(axis=1)) ** 2

        def energy_to(place):
            whole = np.minimum(np.floor(place).astype(int), points - 1)
            return energy[row, whole] + (place - whole) * (energy[row, whole + 1] - energy[row, whole])

        def score_at(sample):
            local = energy_to((sample + chirp.size - 0.5) / step + 0.5) - energy_to((sample - 0.5) / step + 0.5)
            return np.sqrt(square_at(sample) / (np.maximum(local, 1e-14 * chirp.size) * chirp_energy))

        before, score, after = score_at(at - 1), score_at(at), score_at(at + 1)
        for _ in range(step):
            move = np.where((after > score) & (after >= before), 1, np.where(before > score, -1, 0))
            if not move.any():
                break
            at = at + move
            before, score, after = score_at(at - 1), score_at(at), score_at(at + 1)
        curve = before - 2 * score + after
        position = row * hop - longest - guard + at + np.where(curve < 0, 0.5 * (before - after) / curve, 0)
        amplitude = np.sqrt(square_at(at)) / chirp_energy
        good = score >= 0.12
        found.append(np.stack((position[good], np.minimum(1, score[good]), amplitude[good]), axis=1))
    return found


INSIDE = 0.0018


def match_markers(markers, peaks, rate):
    groups = {}
    for marker in markers:
        groups.setdefault(marker["group"], []).append(marker)
    placements = []
    for group in groups.values():
        places = []
        for seed in group:
            for position, score, _ in peaks[seed["kind"]]:
                if score < 0.18:
                    continue
                offset = position / rate - seed["timeS"]
                matched, total = [], 0.0
                for marker in group:
                    list_ = peaks[marker["kind"]]
                    near = int(np.argmin(np.abs(list_[:, 0] - (offset + marker["timeS"]) * rate)))
                    if abs(list_[near, 0] / rate - offset - marker["timeS"]) <= INSIDE:
                        matched.append((marker, list_[near]))
                        total += list_[near, 1]
                if len(matched) >= min(2, len(group)):
                    places.append((offset, total, matched))
        placements.append(places)
    starts = [group[0]["timeS"] for group in groups.values()]
    best = (0.0, [])
    for g, seeds in enumerate(placements):
        for seed in seeds:
            chosen = []
            for other, candidates in enumerate(placements):
                slack = INSIDE + 0.005 * abs(starts[other] - starts[g])
                near = [seed] if other == g else [c for c in candidates if abs(c[0] - seed[0]) <= slack]
                if near:
                    chosen.append(max(near, key=lambda c: c[1]))
            total = sum(c[1] for c in chosen)
            if total > best[0]:
                best = (total, chosen)
    return sorted((pair for place in best[1] for pair in place[2]), key=lambda pair: pair[0]["frame"])


def chirp_correlation(x, chirp, position, before, after):
    needed = before + after + chirp.size
    size = power_of_two_from(needed)
    block = stretch_of(x, position - before, needed)
    cross = sf.rfft(block, size) * np.conj(sf.rfft(chirp, size)) * (2 / float(chirp @ chirp))
    cross[0] = cross[-1] = 0
    whole = np.zeros(size, complex)
    whole[: cross.size] = cross
    return sf.ifft(whole)[: before + after]


def stretch_of(x, start, length):
    out = np.zeros(length)
    low, high = max(0, start), min(x.size, start + length)
    if high > low:
        out[low - start : high - start] = x[low:high]
    return out


def relative_delay(one, reference, largest):
    size = power_of_two_from(2 * one.size)
    a, b = sf.fft(one, size), sf.fft(reference, size)
    cross = a * np.conj(b)
    lag = sf.ifft(cross).real
    reach = int(np.ceil(largest))
    lags = np.arange(-reach, reach + 1)
    best = float(lags[np.argmax(lag[lags % size])])
    half = cross[: size // 2]
    turn = 1j * TWO_PI * np.arange(size // 2) / size

    def value(at):
        return float((half * np.exp(turn * at)).sum().real)

    step, at, peak = 0.5, best, value(best)
    while step > 1 / 64:
        left, right = value(at - step), value(at + step)
        if left > peak and left >= right:
            peak, at = left, at - step
        elif right > peak:
            peak, at = right, at + step
        else:
            step /= 2
    left, right = value(at - 2 * step), value(at + 2 * step)
    bend = left - 2 * peak + right
    return at + step * (left - right) / bend if bend < 0 else at


def clock_fit(x, kinds, matched, rate):
    before, after = round(0.005 * rate), round(0.01 * rate)
    chirps = [linear_chirp(kind, rate) for kind in kinds]
    positions = np.array([peak[0] for _, peak in matched])
    frames = np.array([marker["frame"] for marker, _ in matched], float)
    label = np.array([marker["kind"] * 3 + ["left", "right", "both"].index(marker["side"]) for marker, _ in matched])
    dx, dy = np.empty(frames.size), np.empty(frames.size)
    for one in set(label.tolist()):
        members = np.flatnonzero(label == one)
        best = max(members, key=lambda i: matched[i][1][1])
        correlations = {
            i: chirp_correlation(x, chirps[matched[i][0]["kind"]], int(np.round(positions[i])), before, after)
            for i in members
        }
        for i in members:
            positions[i] = np.round(matched[i][1][0]) + relative_delay(correlations[i], correlations[best], 0.0008 * rate)
        dx[members] = frames[members] - frames[members].mean()
        dy[members] = positions[members] - positions[members].mean()
    return float(dx @ dy / (dx @ dx))


def locate(x, rate, track):
    kinds, markers = [], []
    group, previous, last = -1, -1e9, None
    for s in sorted((s for s in track["segments"] if s["kind"] == "marker"), key=lambda s: s["startS"]):
        kind = {key: s[key] for key in ("fromHz", "toHz", "durationS")}
        if kind not in kinds:
            kinds.append(kind)
        if s["startS"] - previous > 0.6 or last["side"] != s["side"] or last["levelDbfs"] != s["levelDbfs"]:
            group += 1
        frame = round(s["startS"] * track["rateHz"])
        last = {
            "kind": kinds.index(kind),
            "side": s["side"],
            "frame": frame,
            "timeS": frame / track["rateHz"],
            "levelDbfs": s["levelDbfs"],
            "group": group,
        }
        markers.append(last)
        previous = s["startS"]
    peaks = chirp_peaks(x, kinds, rate)
    matched = match_markers(markers, peaks, rate)
    slope = clock_fit(x, kinds, matched, rate)
    offsets = sorted(peak[0] - slope * marker["frame"] for marker, peak in matched)
    return {
        "kinds": kinds,
        "matched": matched,
        "slope": slope,
        "offset": offsets[len(offsets) // 2],
        "rate": slope * track["rateHz"],
    }


# ---- background --------------------------------------------------------------------------------------------------
def noise_density(x, start, length, rate):
    size = power_of_two_from(0.7 * rate)
    while size > length:
        size //= 2
    window = 0.5 - 0.5 * np.cos(TWO_PI * (np.arange(size) + 0.5) / size)
    count = max(1, int(np.floor((length - size) / (size / 2) + 0.5)) + 1)
    step = (length - size) / (count - 1) if count > 1 else 0
    density = np.zeros(size // 2 + 1)
    for i in range(count):
        at = start + int(np.floor(i * step))
        block = x[at : at + size]
        bins = sf.rfft((block - block.mean()) * window)
        density += bins.real**2 + bins.imag**2
    density /= count * float(window @ window) * rate
    return {"rate": rate, "size": size, "density": density, "sum": np.concatenate(([0.0], np.cumsum(density)))}


def density_between(noise, low, high):
    per_bin = noise["rate"] / noise["size"]
    last = noise["density"].size
    centre = (low + high) / 2 / per_bin + 0.5
    half = np.maximum(0.5, (high - low) / 2 / per_bin)
    start = np.minimum(np.maximum(1, centre - half), last - 1)
    stop = np.minimum(np.maximum(start + 0.5, centre + half), last)
    to = np.interp(np.stack((start, stop)), np.arange(noise["sum"].size), noise["sum"])
    return (to[1] - to[0]) / (stop - start)


def third_octaves(low, high):
    k = np.arange(np.ceil(10 * np.log10(low / 1000) - 1e-9), np.floor(10 * np.log10(high / 1000) + 1e-9) + 1)
    return 1000 * 10 ** (k / 10)


def octave_grid(low, high, per):
    k = np.arange(np.ceil(per * np.log2(low / 1000) - 1e-9), np.floor(per * np.log2(high / 1000) + 1e-9) + 1)
    return 1000 * 2 ** (k / per)


# ---- checks ------------------------------------------------------------------------------------------------------
def checks(x, rate, surveyed, sweep, before, after):
    start, stop = int(np.ceil(sweep["start"])), int(sweep["end"])
    length = round(0.02 * rate)
    windows = np.abs(x[start : start + (stop - start) // length * length].reshape(-1, length))
    height = windows.max(axis=1)
    near = (windows > 0.985 * height[:, None]).sum(axis=1)
    flattened = int(((near > 0.2 * length) & (height >= 0.25 * surveyed["peak"])).sum())
    f = third_octaves(200, 4000)
    change = np.median(10 * np.log10(density_between(after, f / 1.12, f * 1.12) / density_between(before, f / 1.12, f * 1.12)))
    f = third_octaves(20, 0.46 * rate)
    level = 10 * np.log10(density_between(before, f / 1.122, f * 1.122) + 1e-30)
    cliff = int((level[:-4] - level[4:] > 18).sum())
    shape = sweep["segment"]
    constant = shape["durationS"] / np.log(shape["toHz"] / shape["fromHz"])
    from_hz = max(shape["fromHz"] * 1.2, 375)
    at = int(np.ceil(sweep["start"] + (constant * np.log(from_hz / shape["fromHz"]) + 0.25) * rate))
    during = noise_density(x, at, stop - at, rate)
    high = min(600, from_hz / 5)
    low = max(50, high / 3)
    louder = 10 * np.log10(density_between(during, low, high) / density_between(before, low, high))
    return flattened, float(change), cliff, float(louder)


# ---- impulse responses -------------------------------------------------------------------------------------------
def transfer_function(recorded, played, size, rate, low, high):
    power = played.real**2 + played.imag**2
    largest = power.max()
    divisor = power + 1e-6 * largest
    first = int(np.ceil(low * size / rate))
    last = int(np.floor(high * size / rate))
    for part, out in (
        (slice(1, first), lambda f: np.log2(low / f)),
        (slice(last + 1, None), lambda f: np.log2(f / high)),
    ):
        f = np.arange(power.size)[part] * (rate / size)
        divisor[part] = power[part] + largest * 1e-6 ** (0.5 + 0.5 * np.cos(np.pi * np.minimum(1, 3 * out(f))))
    h = recorded * np.conj(played)
    h /= divisor
    h[0] = 0
    return h


def power_curve(spectrum, bin_hz):
    power = spectrum.real**2 + spectrum.imag**2
    integral = np.zeros(power.size)
    np.cumsum(0.5 * (power[1:] + power[:-1]), out=integral[1:])
    return bin_hz, power, integral


def integral_to(curve, at):
    _, power, integral = curve
    last = power.size - 1
    at = np.minimum(np.maximum(at, 0), last)
    whole = np.minimum(at.astype(int), last - 1)
    part = at - whole
    return integral[whole] + part * (power[whole] + 0.5 * part * (power[whole + 1] - power[whole]))


def mean_power(curve, f, octaves):
    low = f * 2 ** (-octaves / 2) / curve[0]
    high = f * 2 ** (octaves / 2) / curve[0]
    return (integral_to(curve, high) - integral_to(curve, low)) / (high - low)


def sweep_impulse(x, shape, start, rate, track_rate, tail):
    whole = int(np.floor(start))
    played = exponential_sweep(shape, rate, -(start - whole) / rate, track_rate)
    length = played.size + round(tail * rate)
    size = power_of_two_from(length)
    spectrum = sf.rfft(played, size)
    h = transfer_function(sf.rfft(stretch_of(x, whole, length), size), spectrum, size, rate, shape["fromHz"], shape["toHz"])
    return {
        "shape": shape,
        "rate": rate,
        "size": size,
        "samples": sf.irfft(h, size),
        "played": power_curve(spectrum, rate / size),
        "tail": tail,
    }


def window_values(window, t):
    low, high, rise, fall = window
    up = np.minimum(1, (t - low) / rise) if rise > 0 else 1.0
    down = np.minimum(1, (high - t) / fall) if fall > 0 else 1.0
    w = (0.5 - 0.5 * np.cos(np.pi * up)) * (0.5 - 0.5 * np.cos(np.pi * down))
    return np.where((t <= low) | (t >= high), 0, w)


def windowed(impulse, window):
    rate = impulse["rate"]
    first, last = int(np.ceil(window[0] * rate)), int(np.floor(window[1] * rate))
    n = np.arange(first, last + 1)
    weight = window_values(window, n / rate)
    return weight * impulse["samples"][n % impulse["size"]], first / rate, float(weight @ weight)


def spectrum_about(samples, first, origin, rate, size):
    bins = sf.rfft(samples, size)
    return bins * np.exp(-1j * TWO_PI * rate * (first - origin) / size * np.arange(bins.size))


def linear_response(impulse, window, origin):
    samples, first, energy = windowed(impulse, window)
    size = power_of_two_from(4 * samples.size)
    spectrum = spectrum_about(samples, first, origin, impulse["rate"], size)
    return {
        "spectrum": spectrum,
        "bin": impulse["rate"] / size,
        "curve": power_curve(spectrum, impulse["rate"] / size),
        "energy": energy,
    }


def noise_power(impulse, energy, noise, f, octaves):
    density = density_between(noise, f * 2 ** (-octaves / 2), f * 2 ** (octaves / 2))
    return density * impulse["rate"] * energy / np.maximum(mean_power(impulse["played"], f, 0.03), 1e-300)


# ---- arrival -----------------------------------------------------------------------------------------------------
def whitened_response(samples, rate, zero, band, measured, outside_db, noise_of):
    size = max(power_of_two_from(samples.size), power_of_two_from(0.3 * rate))
    h = sf.rfft(samples, size)
    bins = size // 2 + 1
    finer = max(1, power_of_two_from(1.3 * rate) // size)
    bin_hz = rate / size
    cumulative = np.concatenate(([0.0], np.cumsum(h.real**2 + h.imag**2)))
    index = np.arange(bins + 1)

    def with_noise(f):
        low = f * 2 ** (-1 / 12) / bin_hz + 0.5
        high = f * 2 ** (1 / 12) / bin_hz + 0.5
        wide = np.maximum(high - low, 1)
        middle = (low + high) / 2
        to = np.interp(np.stack((middle - wide / 2, middle + wide / 2)), index, cumulative)
        return np.maximum(1e-300, (to[1] - to[0]) / wide)

    def smooth(f):
        power = with_noise(f)
        return np.sqrt(np.maximum(power - noise_of(f), 0.01 * power))

    f = np.arange(1, bins) * bin_hz
    noise = noise_of(f)
    signal = with_noise(f) - noise
    clearness = np.zeros(bins)
    with np.errstate(invalid="ignore", divide="ignore"):
        clearness[1:] = np.where(signal > noise, signal / (signal + noise), 0)
    low, high = max(measured[0], 5), min(measured[1], 0.47 * rate)
    fine = size * finer
    f = np.maximum(np.arange(fine // 2 + 1) * (rate / fine), 0.005 * bin_hz)
    magnitude = np.empty(f.size)
    inside = (f >= low) & (f <= high)
    magnitude[inside] = smooth(f[inside])
    ends = np.array([low, high])
    scale = smooth(ends) / 10 ** (outside_db(ends) / 20)
    below, above = f < low, f > high
    magnitude[below] = scale[0] * 10 ** (outside_db(f[below]) / 20)
    magnitude[above] = scale[1] * 10 ** (outside_db(f[above]) / 20)
    cepstrum = sf.irfft(np.log(np.maximum(magnitude, magnitude.max() * 1e-12)), fine)
    cepstrum[1 : fine // 2] *= 2
    cepstrum[fine // 2 + 1 :] = 0
    reference = np.exp(1j * sf.rfft(cepstrum).imag)[::finer]
    first = max(1, int(np.ceil(low * size / rate)))
    last = min(bins - 2, int(np.floor(min(high, 18000, 0.45 * rate) * size / rate)))
    k = np.arange(first, last + 1)
    loud = magnitude[k * finer]
    counts = loud >= 0.1 * loud.max()
    lowest, highest = int(k[counts][0]), int(k[counts][-1])
    weight = np.where(counts, clearness[k], 0)
    if highest > 8 * lowest:
        weight = weight / np.sqrt(k)
    taper = 0.15 * np.log(highest / lowest)
    edge = np.minimum(1, np.minimum(np.log((k + 0.5) / lowest), np.log(highest / k)) / taper)
    weight = weight * (0.5 - 0.5 * np.cos(np.pi * np.maximum(0, edge)))
    spectrum = np.zeros(bins, complex)
    spectrum[k] = weight * h[k] * np.conj(reference[k]) / np.abs(h[k])
    whole = np.zeros(bins)
    whole[k] = weight
    return spectrum, whole, size, zero, rate


def top_of(white, window):
    spectrum, weight, size, zero, rate = white
    fine = 2 * size
    work = np.zeros(fine, complex)
    work[1 : spectrum.size] = spectrum[1:]
    total, centre = weight.sum(), float(weight @ np.arange(weight.size))
    z = sf.ifft(work)
    low, high = (int(np.floor((t * rate + zero) * 2 + 0.5)) for t in window)
    part = z[np.arange(low - 1, high + 2) % fine]
    envelope = np.abs(part)
    loudest = int(np.argmax(envelope[1:-1])) + 1
    e = envelope
    early = np.flatnonzero((e[2:loudest] >= 0.4 * e[loudest]) & (e[2:loudest] >= e[1 : loudest - 1]) & (e[2:loudest] > e[3 : loudest + 1]))
    first = int(early[0]) + 2 if early.size else loudest
    reach = int(np.floor(0.5 * fine * total / centre + 0.5))
    real = part.real
    near = np.arange(max(1, first - reach), min(part.size - 2, first + reach) + 1)
    top = int(near[np.argmax(np.abs(real[near]))])
    left, peak, right = np.abs(real[top - 1 : top + 2])
    bend = left - 2 * peak + right
    shift = max(-0.5, min(0.5, 0.5 * (left - right) / bend)) if bend < 0 else 0.0
    return {
        "at": ((low - 1 + top + shift) / 2 - zero) / rate,
        "sign": 1 if real[top] >= 0 else -1,
        "coherence": peak * fine / total,
        "edge": top <= 1 or top >= part.size - 2,
    }


def anchor_of(x, located, side):
    rate, kinds = located["rate"], located["kinds"]
    members = [marker for marker, _ in located["matched"] if marker["side"] == side]
    before, after = round(0.015 * rate), round(0.06 * rate)
    length = int(np.ceil(before + max(k["durationS"] for k in kinds) * rate + after))
    size = power_of_two_from(length)
    low = max(min(k["fromHz"], k["toHz"]) for k in kinds)
    high = min(max(k["fromHz"], k["toHz"]) for k in kinds)
    bins = np.arange(size // 2 + 1)
    f = bins * rate / size
    band = (f > 1.1 * low) & (f < 0.9 * high)
    total, power = np.zeros(size // 2 + 1, complex), 0.0
    for marker in members:
        position = located["slope"] * marker["frame"] + located["offset"]
        whole = int(np.floor(position))
        chirp = linear_chirp(kinds[marker["kind"]], rate, marker["levelDbfs"])
        block = stretch_of(x, whole - before, length)
        h = transfer_function(sf.rfft(block, size), sf.rfft(chirp, size), size, rate, low, high)
        total += h * np.exp(1j * TWO_PI * (position - whole) / size * bins)
        power += float((np.abs(h[band]) ** 2).sum())
    count = len(members)
    total /= count
    coherent = float((np.abs(total[band]) ** 2).sum())
    noise = max(1e-9 * coherent, (power / count - coherent) / (count - 1))
    samples = sf.irfft(total, size)[:length]
    anchor = {
        "samples": samples,
        "rate": rate,
        "zero": before,
        "band": (1.04 * low, 0.96 * high),
        "noise": noise / band.sum() / size,
    }
    direct, energy = direct_sound(anchor, (-0.006, 0.005, 0.001, 0.003))
    heard = sf.rfft(direct, size)
    anchor["snr"] = float((np.abs(heard[band]) ** 2).mean()) / (anchor["noise"] * energy) - 1
    return anchor


def direct_sound(anchor, window):
    t = (np.arange(anchor["samples"].size) - anchor["zero"]) / anchor["rate"]
    weight = window_values(window, t)
    return weight * anchor["samples"], float(weight @ weight)


def anchor_arrival(anchor):
    low, high = anchor["band"]

    def shape(f):
        return (
            -20 * np.log10(1 + (0.75 * low / f) ** 4)
            - 10 * np.log10(1 + (0.3 * low / f) ** 4)
            - 10 * np.log10(1 + (f / max(22000, 1.8 * high)) ** 4)
        )

    def look(window, span):
        samples, energy = direct_sound(anchor, window)
        power = anchor["noise"] * energy
        white = whitened_response(
            samples, anchor["rate"], anchor["zero"], (low, high), (low, high), shape, lambda f: power
        )
        return top_of(white, span)

    at = look((-0.006, 0.005, 0.001, 0.003), (-0.004, 0.003))["at"]
    return look((at - 0.001, at + 0.003, 0.0005, 0.002), (at - 0.0005, at + 0.0005))


# ---- reading of the sweep ----------------------------------------------------------------------------------------
def fall_slope(octaves, fall):
    order = np.arange(0.8, 10, 0.02)[:, None]
    twice = 20 * np.log10(1 + 2 ** (octaves * order))
    once = 10 * np.log10(1 + 3 * 2 ** (2 * octaves * order))
    error = np.minimum(((twice - fall) ** 2).sum(axis=1), ((once - fall) ** 2).sum(axis=1))
    return 20 * np.log10(2) * order[np.argmin(error), 0]


def pass_band(f, level):
    known = np.flatnonzero(~np.isnan(level))
    value = np.where(np.isnan(level), -np.inf, level)
    dip = max(1, round(0.75 / np.log2(f[1] / f[0])))
    median = value.max() - 3
    seed = int(np.argmax(value))
    low, high = int(known[0]), int(known[-1])

    def reach(step, limit):
        last, i = seed, seed
        while known[0] <= i <= known[-1]:
            if value[i] >= limit:
                last = i
            elif abs(i - last) > dip:
                break
            i += step
        return last

    for _ in range(12):
        low, high = reach(-1, median - 6), reach(1, median - 6)
        inside = np.sort(value[low : high + 1][np.isfinite(value[low : high + 1])])
        following = inside[inside.size // 2]
        if abs(following - median) < 0.01:
            break
        median = following

    def side(edge, step):
        outside = edge + step
        if outside < 0 or outside >= f.size or np.isnan(level[outside]):
            return None, None
        share = (value[edge] - median + 6) / (value[edge] - value[outside])
        corner = f[edge] * (f[outside] / f[edge]) ** share
        octaves, falls, deepest, i = [], [], 0.0, outside
        while 0 <= i < f.size and not np.isnan(level[i]):
            fall = median - value[i]
            if fall < deepest - 3:
                break
            deepest = max(deepest, fall)
            if fall > 20:
                break
            octaves.append(abs(np.log2(f[i] / corner)))
            falls.append(fall)
            i += step
        slope = fall_slope(np.array(octaves), np.array(falls)) if deepest >= 12 and len(falls) >= 2 else None
        return corner, slope

    return side(low, -1), side(high, 1)


def found_band(impulse, response, noise):
    shape = impulse["shape"]
    f = octave_grid(1.2 * shape["fromHz"], shape["toHz"] / 1.2, 24)
    power = mean_power(response["curve"], f, 1 / 3)
    floor = noise_power(impulse, response["energy"], noise, f, 1 / 3)
    level = np.where(power > 3 * floor, 10 * np.log10(np.maximum(power - floor, 1e-30)), np.nan)
    band = pass_band(f, level)
    known = f[~np.isnan(level)]
    low = band[0][0] or known[0]
    high = band[1][0] or known[-1]
    inside = (f >= low) & (f <= high)
    median = np.median(level[inside & ~np.isnan(level)])
    clear = (np.nan_to_num(level, nan=-1e9) > median - 25) & (power > 30 * floor)
    i = int(np.searchsorted(f, low)) - 1
    j = int(np.searchsorted(f, high, side="right"))
    measured_low, measured_high = low, high
    while i >= 0 and clear[i]:
        measured_low, i = f[i], i - 1
    while j < f.size and clear[j]:
        measured_high, j = f[j], j + 1
    snr = float(np.median(10 * np.log10(np.maximum(power[inside] / floor[inside] - 1, 1e-9))))
    return {"band": band, "pass": (low, high), "measured": (measured_low, measured_high), "snr": snr, "f": f, "level": level}


def sweep_reading(impulse, noise, anchor):
    rate, tail, shape = impulse["rate"], impulse["tail"], impulse["shape"]
    anchor_at = anchor_arrival(anchor)["at"]
    search = (anchor_at - 0.012, anchor_at + 0.012)
    wide = linear_response(impulse, (search[0] - 0.005, search[1] + min(0.2, tail), 0.001, 0.05), 0)
    found = found_band(impulse, wide, noise)
    edge = (found["f"] >= found["measured"][0]) & (found["f"] <= 1.6 * found["measured"][0]) & ~np.isnan(found["level"])
    slope = np.polyfit(np.log2(found["f"][edge]), found["level"][edge], 1)[0] if edge.sum() >= 3 else 12
    steep = min(36, max(12, slope + 7))

    def whitened(band, measured, span, after, outside):
        after = min(after, tail)
        samples, first, energy = windowed(impulse, (span[0] - 0.008, span[1] + after, 0.003, 0.6 * after))
        return whitened_response(
            samples,
            rate,
            -round(first * rate),
            band,
            measured,
            outside,
            lambda f: noise_power(impulse, energy, noise, f, 1 / 6),
        )

    def two_looks(band, measured, span, fall):
        def outside(f):
            return np.where(
                f < measured[0],
                -fall * np.log2(measured[0] / f),
                np.where(f > measured[1], -24 * np.log2(f / measured[1]), 0),
            )

        after = min(0.12, max(0.005, 4 / measured[0]))
        first = top_of(whitened(band, measured, span, 0.12, outside), span)
        reach = max(0.0005, 0.75 / band[0])
        near = (max(span[0], first["at"] - max(reach, 0.003)), min(span[1], first["at"] + reach))
        return top_of(whitened(band, measured, near, after, outside), near)

    looks = [two_looks(found["pass"], found["measured"], search, fall) for fall in (12, steep, steep + 12)]
    best = max(looks, key=lambda look: look["coherence"])
    arrival = next(look for look in looks if look["sign"] == best["sign"])
    upper = (found["measured"][1] / 8, found["measured"][1])
    if upper[0] >= 2 * found["measured"][0]:
        span = (max(search[0], arrival["at"] - 1 / upper[0]), min(search[1], arrival["at"] + 1 / upper[0]))
        closer = two_looks(upper, upper, span, 0)
        if closer["coherence"] > arrival["coherence"] and not closer["edge"]:
            arrival = closer
    reference = anchor_arrival(anchor)["at"]
    origin = arrival["at"]

    lead_2 = shape["durationS"] / np.log(shape["toHz"] / shape["fromHz"]) * np.log(2)
    lead = max(0.005, min(1.5 / shape["fromHz"], 0.4 * lead_2))
    long = min(0.2, tail)
    linear = linear_response(impulse, (origin - lead, origin + long, lead - 0.001, long / 4), origin)
    f = octave_grid(shape["fromHz"], shape["toHz"], 48)
    bins = np.arange(linear["spectrum"].size)
    at = np.minimum(f / linear["bin"], bins.size - 1.001)
    phase = np.angle(np.interp(at, bins, linear["spectrum"].real) + 1j * np.interp(at, bins, linear["spectrum"].imag))
    power = mean_power(linear["curve"], f, 1 / 12)
    floor = noise_power(impulse, linear["energy"], noise, f, 1 / 12)
    snr = power / floor - 1
    level = 10 * np.log10(np.where(snr < 10, np.maximum(power - floor, 1e-30), power))
    sigma = 8.686 * np.sqrt(1 / (2 * np.maximum(snr, 1e-9)))
    final = found_band(impulse, linear, noise)
    third = third_octaves(1.2 * shape["fromHz"], shape["toHz"] / 1.2)
    bands = 10 * np.log10(mean_power(linear["curve"], third, 1 / 3))
    band_snr = 10 * np.log10(
        np.maximum(mean_power(linear["curve"], third, 1 / 3) / noise_power(impulse, linear["energy"], noise, third, 1 / 3) - 1, 1e-3)
    )
    distortion = harmonics(impulse, noise, origin)
    late = 0.03 / found["pass"][1]
    return {
        "origin": origin,
        "arrivalS": origin - late - reference,
        "sign": best["sign"],
        "fHz": f,
        "levelDb": level,
        "phase": phase,
        "sigma": sigma,
        "band": final["band"],
        "bands": bands,
        "bandSnr": band_snr,
        "distortion": distortion,
    }


def harmonics(impulse, noise, arrival):
    shape, rate = impulse["shape"], impulse["rate"]
    constant = shape["durationS"] / np.log(shape["toHz"] / shape["fromHz"])
    f = octave_grid(1.1 * shape["fromHz"], shape["toHz"] / 2, 48)
    square, floor = np.zeros(f.size), np.zeros(f.size)
    for order in range(2, 6):
        before = min(0.02, 0.35 * constant * np.log((order + 1) / order))
        after = min(0.12, 0.65 * constant * np.log(order / (order - 1)))
        origin = arrival - constant * np.log(order)
        window = (origin - before, origin + after, 0.15 * before, 0.3 * after)
        samples, first, energy = windowed(impulse, window)
        size = power_of_two_from(2 * samples.size)
        curve = power_curve(spectrum_about(samples, first, origin, rate, size), rate / size)
        same = (arrival - before, arrival + after, 0.15 * before, 0.3 * after)
        samples, first, _ = windowed(impulse, same)
        base = power_curve(spectrum_about(samples, first, arrival, rate, size), rate / size)
        ok = (f >= 1.05 * shape["fromHz"]) & (order * f <= min(shape["toHz"], 0.45 * rate))
        fundamental = mean_power(base, f, 1 / 48)
        square += np.where(ok, mean_power(curve, order * f, 1 / 48) / fundamental, 0)
        floor += np.where(ok, noise_power(impulse, energy, noise, order * f, 1 / 48) / fundamental, 0)
    return 100 * np.sqrt(square), 100 * np.sqrt(floor)


def path_likeness(impulse, anchor):
    rate = impulse["rate"]
    samples, first, _ = windowed(impulse, (-0.005, 0.05, 0.002, 0.02))
    size = power_of_two_from(2 * max(samples.size, anchor["samples"].size))
    sweep = spectrum_about(samples, first, 0, rate, size)
    lead = round(0.005 * rate)
    cut = anchor["samples"][anchor["zero"] - lead : anchor["zero"] + round(0.05 * rate)]
    reference = sf.rfft(cut, size) * np.exp(1j * TWO_PI * lead / size * np.arange(size // 2 + 1))
    k = slice(int(np.ceil(anchor["band"][0] * size / rate)), int(anchor["band"][1] * size / rate) + 1)
    cross = (sweep[k] * np.conj(reference[k])).sum()
    return abs(cross) ** 2 / ((np.abs(sweep[k]) ** 2).sum() * (np.abs(reference[k]) ** 2).sum())


def impulse_at_rate(impulse, arrival, rate):
    low, high = arrival - 0.02, arrival + min(0.3, impulse["tail"])
    samples, first, _ = windowed(impulse, (low, high, 0.002, 0.02))
    step = impulse["rate"] / rate
    count = int(np.floor((high - low) * rate))
    lead = round(0.02 * rate)
    position = (arrival - lead / rate - first) * impulse["rate"] + step * np.arange(count)
    whole = np.floor(position).astype(int)
    phase = (position - whole) * 1024
    row = phase.astype(int)
    part = (phase - row)[:, None]
    table = sinc_table(min(1, 1 / step))
    half = table.shape[1] // 2
    padded = np.concatenate((np.zeros(2 * half), samples, np.zeros(2 * half)))
    at = np.clip(whole[:, None] + np.arange(half + 1, 3 * half + 1)[None, :], 0, padded.size - 1)
    near = np.einsum("ij,ij->i", padded[at], table[row])
    far = np.einsum("ij,ij->i", padded[at], table[row + 1])
    return near + part[:, 0] * (far - near)


@functools.lru_cache(maxsize=8)
def sinc_table(cutoff):
    half = int(np.ceil(32 / cutoff))
    t = np.arange(2 * half)[None, :] - half + 1 - np.arange(1025)[:, None] / 1024
    edge = t / half
    return cutoff * np.sinc(t * cutoff) * i0(9 * np.sqrt(np.maximum(0, 1 - edge * edge))) / i0(9)


# ---- the whole ---------------------------------------------------------------------------------------------------
def read(wav, track, clock):
    x, rate = read_wav(wav)
    clock("decoding")
    surveyed = survey(x, rate)
    clock("survey")
    located = locate(x, rate, track)
    clock("markers and clock")
    effective = located["rate"]
    events = []
    for segment in track["segments"]:
        if segment["kind"] == "silence":
            continue
        first = round(segment["startS"] * track["rateHz"])
        start = located["slope"] * first + located["offset"]
        end = located["slope"] * (first + segment["durationS"] * track["rateHz"]) + located["offset"]
        events.append({"segment": segment, "start": start, "end": end})
    events.sort(key=lambda event: event["start"])
    quiet_end = int(np.floor(events[0]["start"] - round(0.03 * rate)))
    before = noise_density(x, 0, quiet_end, effective)
    after_at = int(np.ceil(events[-1]["end"] + round(0.35 * rate)))
    after = noise_density(x, after_at, x.size - after_at, effective)
    clock("background")
    sweep = next(event for event in events if event["segment"]["kind"] == "sweep")
    checked = checks(x, effective, surveyed, sweep, before, after)
    clock("checks")
    following = next(event for event in events if event["start"] >= sweep["end"] - 1)
    tail = max(0.05, min(0.5, (min(following["start"], x.size) - sweep["end"]) / effective - 0.002))
    impulse = sweep_impulse(x, sweep["segment"], sweep["start"], effective, track["rateHz"], tail)
    clock("deconvolution")
    side = "left" if sweep["segment"]["side"] == "right" else "right"
    anchor = anchor_of(x, located, side)
    start_s = (located["offset"] + anchor_arrival(anchor)["at"] * effective) / rate
    clock("time reference")
    reading = sweep_reading(impulse, before, anchor)
    likeness = path_likeness(impulse, anchor)
    clock("response, arrival, distortion")
    shown = impulse_at_rate(impulse, reading["origin"], track["rateHz"])
    clock("impulse response shown")
    return located, start_s, reading, checked, likeness, shown


def main():
    wav, track_path, runs = sys.argv[1], sys.argv[2], int(sys.argv[3])
    with open(track_path) as file:
        track = json.load(file)
    stages, totals = {}, []
    for _ in range(runs):
        began = last = time.perf_counter()

        def clock(name):
            nonlocal last
            now = time.perf_counter()
            stages.setdefault(name, []).append((now - last) * 1000)
            last = now

        located, start_s, reading, _, _, _ = read(wav, track, clock)
        totals.append((time.perf_counter() - began) * 1000)
    nominal = read_wav(wav)[1] / track["rateHz"]
    answer = {
        "driftPpm": (located["slope"] / nominal - 1) * 1e6,
        "startS": start_s,
        "arrivalS": reading["arrivalS"],
        "polarity": reading["sign"],
        "lowHz": reading["band"][0][0],
        "highHz": reading["band"][1][0],
        "levelDb": np.round(reading["levelDb"], 4).tolist(),
    }
    json.dump({"stages": stages, "total": totals, "answer": answer}, sys.stdout)


main()
