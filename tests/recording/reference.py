"""Reference numbers for tests/core/recording.rs by general libraries: numpy and scipy.

Run: python3 tests/recording/reference.py > tests/recording/reference.json
Fit: scipy.optimize.least_squares over all five numbers of a decay at once, from the samples of case C8.
Spectrum: scipy.signal.welch. W_k: the standard's transfer function as an analogue filter through scipy.signal.lsim, the
signal sampled ten times as densely as the test does.
"""
import json
import pathlib

import numpy as np
import scipy
from scipy import optimize, signal

HERE = pathlib.Path(__file__).parent
rows = np.loadtxt(HERE.parent / "cases" / "bounce-c8.csv", delimiter=",", skiprows=1)
t, axes = rows[:, 0], rows[:, 1:]
rest = axes[t < 0.55].mean(0)
up = axes @ rest / np.linalg.norm(rest) - np.linalg.norm(rest)

# The stretches of case C8 that are free, from each first top on.
fits = []
for start, end in [(2.20, 4.36), (6.00, 8.14), (9.82, 11.98)]:
    part = (t > start - 1e-9) & (t < end - 1e-9)
    tau, y = t[part] - t[part][0], up[part]

    def off(p):
        s, w, a, b, c = p
        return np.exp(-s * tau) * (a * np.cos(w * tau) + b * np.sin(w * tau)) + c - y

    best = None
    for s0 in (0.5, 1.5, 3.0):
        for w0 in (5.0, 7.5, 10.0):
            found = optimize.least_squares(off, [s0, w0, y[0], 0.0, 0.0], xtol=1e-15, ftol=1e-15, gtol=1e-15)
            if best is None or found.cost < best.cost:
                best = found
    s, w = best.x[:2]
    spare = len(y) - 5
    covariance = np.linalg.inv(best.jac.T @ best.jac) * (2 * best.cost / spare)
    n = np.hypot(s, w)
    to_zeta = np.array([w * w, -s * w, 0, 0, 0]) / n**3
    to_hz = np.array([s, w, 0, 0, 0]) / n / (2 * np.pi)
    fits.append({
        "samples": y.tolist(), "frequency_hz": n / (2 * np.pi), "damping": s / n,
        "u_frequency_hz": float(np.sqrt(to_hz @ covariance @ to_hz)),
        "u_damping": float(np.sqrt(to_zeta @ covariance @ to_zeta)),
        "residual": float(np.sqrt(2 * best.cost / spare)),
    })

# Spectrum of the upward acceleration of C8, pieces of 4 s at 50 Hz.
hz, density = signal.welch(up, fs=50.0, window="hann", nperseg=200, noverlap=100, detrend="constant")

# A drive of sines, 40 s: the test has 200 samples a second, the reference 2,000.
SINES = [(0.9, 0.8, 0.3), (1.3, 1.0, 1.1), (3.1, 0.5, 2.0), (6.4, 0.4, 0.7), (11.0, 0.9, 2.9), (17.0, 0.3, 1.7)]


def drive(times):
    return sum(a * np.sin(2 * np.pi * f * times + p) for f, a, p in SINES)


def w_k():
    two_pi = 2 * np.pi
    w1, w2, w3, w4, w5, w6 = (two_pi * f for f in (0.4, 100.0, 12.5, 12.5, 2.37, 3.35))
    q1 = q2 = 1 / np.sqrt(2)
    q4, q5, q6 = 0.63, 0.91, 0.91
    high = ([1, 0, 0], [1, w1 / q1, w1 * w1])
    low = ([w2 * w2], [1, w2 / q2, w2 * w2])
    transition = ([w4 * w4 / w3, w4 * w4], [1, w4 / q4, w4 * w4])
    step = ([1, w5 / q5, w5 * w5], [1, w6 / q6, w6 * w6])
    num, den = [1.0], [1.0]
    for n, d in (high, low, transition, step):
        num, den = np.polymul(num, n), np.polymul(den, d)
    return num, den


fine = np.arange(0, 40, 1 / 2000)
_, felt, _ = signal.lsim(w_k(), drive(fine), fine)
felt = felt[::10]
print(json.dumps({
    "numpy": np.__version__, "scipy": scipy.__version__, "fits": fits,
    "welch": {"hz": hz.tolist(), "density": density.tolist(), "signal": up.tolist()},
    "drive": {
        "sines": SINES, "rms": float(np.sqrt(np.mean(felt**2))),
        "crest": float(np.max(abs(felt)) / np.sqrt(np.mean(felt**2))),
        "dose": float((np.sum(felt**4) / 200) ** 0.25),
    },
}, indent=None))
