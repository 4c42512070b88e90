"""A linear quarter car over a hump by scipy.signal.lsim; nothing here uses the program.

Run: python3 linear_run.py  (writes linear_run.json beside itself)
"""

import datetime
import json
import pathlib

import numpy
import scipy
from scipy import signal

MS, MU, K, KT, C = 428.0, 44.0, 22195.2, 205000.0, 1849.28  # kg, kg, N/m, N/m, N·s/m
SPEED, HEIGHT, LENGTH, AHEAD = 12.0, 0.04, 2.5, 1.0  # m/s, m, m, m

A = [
    [0, 1, 0, 0],
    [-K / MS, -C / MS, K / MS, C / MS],
    [0, 0, 0, 1],
    [K / MU, C / MU, -(K + KT) / MU, -C / MU],
]
B = [[0], [0], [0], [KT / MU]]
OUT = [[1, 0, 0, 0], [-1, 0, 1, 0], [-K / MS, -C / MS, K / MS, C / MS]]  # body, wheel pressed in, body acceleration

FINE = 64
time = numpy.arange(0, 256 * 2 * FINE + 1) / (256.0 * FINE)
on = (SPEED * time - AHEAD) / LENGTH
road = numpy.where((on >= 0) & (on <= 1), 0.5 * HEIGHT * (1 - numpy.cos(2 * numpy.pi * on)), 0.0)
_, found, _ = signal.lsim((A, B, OUT, [[0], [0], [0]]), road, time)

every = 8 * FINE
json.dump(
    {
        "by": f"scipy {scipy.__version__}, numpy {numpy.__version__}, {datetime.date.today()}",
        "every_samples": 8,
        "body_m": found[::every, 0].tolist(),
        "pressed_m": found[::every, 1].tolist(),
        "acceleration": found[::every, 2].tolist(),
    },
    (pathlib.Path(__file__).parent / "linear_run.json").open("w"),
    indent=1,
)
