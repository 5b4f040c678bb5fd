"""The figures of a minute's trace with numpy and scipy: the estimators of RigControl.Analysis as one would write them there.

Reads a file of float64: 60,000 times, then 16 channels of 60,000 values. Prints figures, then the least processor time of a round in ms.
"""
import sys
import time

import warnings

import numpy as np
from scipy.integrate import odeint
from scipy.optimize import curve_fit, brentq

warnings.simplefilter("ignore")
RPM = np.pi / 30
INERTIA, RADIUS, CAPACITY, REST, AFTER = 2e-4, 0.045, 1.3, 60.0, 2.0


def noise_of(v):
    return max(1e-9, np.median(np.abs(np.diff(v, 2))) / (0.6745 * np.sqrt(6)))


def fresh(t, v):
    """Each reading once, at the middle of its turn, without spikes."""
    change = np.flatnonzero(np.diff(v) != 0) + 1
    change = change[v[change] > 0]
    turn = 60 / v[change]
    at = t[change] - 0.0005 - turn / 2
    keep = np.concatenate(([True], np.diff(at) > 0))
    at, value = at[keep], v[change][keep]
    padded = np.lib.stride_tricks.sliding_window_view(np.pad(value, 3, mode="edge"), 7)
    median = np.median(padded, axis=1)
    spread = np.median(np.abs(padded - median[:, None]), axis=1)
    ok = np.abs(value - median) <= np.maximum(0.1 * median, 8 * spread)
    return at[ok], value[ok]


def blocks(t, v, most=300):
    size = max(1, len(t) // most)
    n = len(t) // size * size
    return t[:n].reshape(-1, size).mean(1), v[:n].reshape(-1, size).mean(1)


def settled(t, v):
    t, v = blocks(t, v, 50)
    p, cov = np.polyfit(t - t.mean(), v, 1, cov=True)
    return p[1], np.sqrt(cov[1, 1])


def crest(t, v, noise):
    best, reach = v.max(), 3
    while 2 * reach + 1 <= len(v) and reach <= 400:
        mean = np.convolve(v, np.ones(2 * reach + 1) / (2 * reach + 1), "valid")
        k = int(np.argmax(mean))
        x = np.linspace(-1, 1, 2 * reach + 1)
        w = v[k:k + 2 * reach + 1]
        p, res, *_ = np.polyfit(x, w, 2, full=True)
        if len(res) and np.sqrt(res[0] / max(1, len(w) - 3)) > noise * (1 + 2.5 / np.sqrt(2 * max(1, len(w) - 3))):
            break
        best = np.polyval(p, np.clip(-p[1] / (2 * p[0]), -1, 1)) if p[0] < 0 else max(np.polyval(p, 1), np.polyval(p, -1))
        reach = reach * 3 // 2 + 1
    return best


def coast(t, w0, a, b, c):
    d = b * b - 4 * a * c
    s = 0.5 * np.sqrt(abs(d)) + 1e-12
    x = s * t
    f = np.tanh(x) / s if d > 0 else np.tan(np.minimum(x, 1.57)) / s
    above = w0 - (0.5 * b * w0 + a) * f
    return np.maximum(0, above / (1 + (0.5 * b + c * w0) * f))


def coast_down(t, v, release, floor):
    keep = (t > release + 0.05) & (v > floor)
    tb, wb = blocks(t[keep] - release, v[keep] * RPM)
    for terms in (4, 3, 2):
        try:
            start = [wb[0], 30, 0.01, 5e-5][:terms]
            return curve_fit(lambda x, *p: coast(x, *p, *[0] * (4 - len(p))), tb, wb, start, maxfev=2000)
        except RuntimeError:
            continue
    raise RuntimeError("no coast-down")


def spin_up(t, v, rise, hold, demand_t, demand, drag):
    keep = (t > rise) & (t < hold)
    tb, wb = blocks(t[keep] - rise, v[keep] * RPM)
    share = np.interp(np.linspace(rise, hold, 400), demand_t, demand) / 60
    grid = np.linspace(0, hold - rise, 400)

    def model(x, final, tau, delay, inverse):
        slowing = drag[1] + final * (drag[2] + final * drag[3])
        free, limit = final + tau * slowing, 1 / max(inverse, 1e-9)

        def slope(w, when):
            s = share[min(399, int(when / grid[-1] * 399))]
            return max(-w[0], min(limit, (s * free - w[0]) / tau)) - (drag[1] + w[0] * (drag[2] + w[0] * drag[3]) if w[0] > 0 else 0)

        return np.interp(x - delay, grid, odeint(slope, [0.0], grid)[:, 0])

    top = wb.max()
    steepest = np.max(np.diff(wb) / np.diff(tb))
    return curve_fit(model, tb, wb, [top, 0.1, 0.0, 1 / steepest], bounds=([0, 1e-4, -0.5, 0], [np.inf, 1e4, 5, np.inf]), x_scale=[top, 0.1, 0.05, 1 / steepest])


def cooling(t, v, ambient):
    step = max(1, len(t) // 500)
    t, v = t[::step], v[::step]
    one = curve_fit(lambda x, a, tau: ambient + a * np.exp(-(x - t[0]) / tau), t, v, [v[0] - ambient, (t[-1] - t[0]) / 2], maxfev=2000)
    try:
        curve_fit(lambda x, a, tau, b, quick: ambient + a * np.exp(-(x - t[0]) / tau) + b * np.exp(-(x - t[0]) / quick), t, v,
                  [*one[0], 0.2 * one[0][0], one[0][1] / 8], bounds=([-1e3, 1e-3, -1e3, 1e-3], [1e3, 1e5, 1e3, 1e3]), max_nfev=300)
    except RuntimeError:
        pass
    return one


def integral(t, v):
    whole = np.trapz(v, t)
    half = np.trapz(v[::2], t[::2])
    return whole, abs(whole - half) / 3 + noise_of(v) * np.sqrt(np.sum(np.gradient(t) ** 2))


def figures(t, channels):
    speed, throttle, volt, amp = channels[:4]
    on = np.flatnonzero(throttle > 0.05)
    rise, release = t[on[0]], t[on[-1] + 1]
    ft, fv = fresh(t, speed)
    noise = noise_of(fv)
    hold_from = rise + 0.5 * (release - rise)
    hold = (ft > hold_from) & (ft < release)
    f = {"steady-speed": settled(ft[hold], fv[hold])[0]}
    near = fv > 0.85 * fv.max()
    f["peak-speed"] = crest(ft[near], fv[near], noise_of(fv[near]))
    f["tip-speed"], f["stored-energy"] = f["peak-speed"] * RPM * RADIUS, 0.5 * INERTIA * (f["peak-speed"] * RPM) ** 2
    level = 0.9 * f["steady-speed"]
    k = int(np.argmax((ft > rise) & (fv >= level)))
    local = slice(max(0, k - 25), k + 25)
    p = np.polyfit(ft[local] - ft[k], fv[local] - level, 2)
    f["spin-up-time"] = ft[k] + min(np.roots(p).real, key=abs) - rise
    drag, _ = coast_down(ft, fv, release, REST)
    drag = np.append(drag, np.zeros(4 - len(drag)))
    f["drag-constant"], f["drag-linear"], f["drag-quadratic"] = INERTIA * drag[1:]
    f["coast-down-time"] = brentq(lambda x: coast(np.array([x]), *drag)[0] - REST * RPM, 0, 60)
    f["speed-after"] = coast(np.array([AFTER]), *drag)[0] / RPM
    f["energy-after"] = 0.5 * INERTIA * (f["speed-after"] * RPM) ** 2
    up, _ = spin_up(ft, fv, rise, hold_from, t, throttle, drag)
    f["time-constant"] = up[1]
    accel = np.gradient(np.convolve(fv[(ft > rise) & (ft < hold_from)] * RPM, np.ones(15) / 15, "same"), ft[(ft > rise) & (ft < hold_from)])
    f["peak-torque"] = INERTIA * accel.max()
    power = np.interp(t, t, volt) * amp
    during = (t >= rise) & (t <= release)
    f["peak-current"], f["peak-power"], f["minimum-voltage"] = amp.max(), power.max(), volt.min()
    for s in (amp[t > rise], power[t > rise], -volt[t > rise]):
        crest(t[t > rise], s, noise_of(s))
    f["peak-voltage"] = volt.max()
    crest(t, volt, noise_of(volt))
    f["charge-used"], f["energy-used"] = integral(t, amp)[0] / 3600, integral(t, power)[0] / 3600
    f["battery-share"] = 100 * f["charge-used"] / CAPACITY
    f["mean-current"] = integral(t[during], amp[during])[0] / (release - rise)
    charge = np.concatenate(([0], np.cumsum(0.5 * (amp[1:] + amp[:-1]) * np.diff(t))))
    step = max(1, len(t) // 4000)
    design = np.column_stack((np.ones(len(t[::step])), amp[::step], charge[::step]))
    f["pack-resistance"] = -np.linalg.lstsq(design, volt[::step], rcond=None)[0][1]
    held = during & (t > rise + 1.3) & (throttle > 5)
    duty, winding = throttle[held] / 100, amp[held] / (throttle[held] / 100)
    w = np.interp(t[held], ft, fv) * RPM
    x, y = np.column_stack((winding, w)), duty * volt[held]
    for _ in range(8):
        q = np.linalg.lstsq(x, y, rcond=None)[0]
        off = np.abs(y - x @ q)
        good = off <= 4 * np.median(off) / 0.6745
        if good.all():
            break
        x, y = x[good], y[good]
    f["winding-resistance"], f["motor-kv"] = q[0], 1 / (q[1] * RPM)
    for c in channels[4:8]:
        n = noise_of(c)
        f["temperature-rise"] = crest(t[t > rise], c[t > rise], n) - np.polyval(np.polyfit(t[:8], c[:8], 1), t[0])
        tail = t > release
        top = int(np.argmax(c[tail]))
        try:
            f["thermal-time-constant"] = cooling(t[tail][top:], c[tail][top:], channels[7][tail].mean())[0][1]
        except (RuntimeError, ValueError, TypeError):
            pass
    return f


def main():
    data = np.fromfile(sys.argv[1], dtype=np.float64).reshape(17, -1)
    best = 1e9
    for _ in range(5):
        began = time.process_time()
        result = figures(data[0], data[1:])
        best = min(best, time.process_time() - began)
    for name, value in sorted(result.items()):
        print(f"{name} {value:.6g}")
    print(f"{1000 * best:.2f}")


main()
