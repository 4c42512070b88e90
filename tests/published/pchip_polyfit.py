"""Reference values for monotone cubic interpolation and least-squares polynomials.

Computed with scipy.interpolate.PchipInterpolator and numpy.polyfit; nothing here uses the program.
Run: python3 pchip_polyfit.py  (writes pchip_polyfit.json beside itself)
"""

import datetime
import json
import pathlib

import numpy
import scipy
from scipy.interpolate import PchipInterpolator

# All points are invented. Spacing is uneven throughout.
TABLES = [
    # Compression in m, load in N.
    (
        "progressive coil",
        [0.0, 0.012, 0.03, 0.041, 0.07, 0.078, 0.1],
        [220.0, 560.0, 1130.0, 1560.0, 3010.0, 3600.0, 5700.0],
    ),
    # Plain numbers: a hump, a plateau, a first slope held at three times the secant, a last slope held at zero.
    ("hump, plateau, held ends", [-1.0, 0.0, 1.5, 2.0, 3.2, 5.0, 6.0], [0.0, 0.2, -2.0, -2.0, 1.0, 4.6, 4.7]),
]

ROWS = [
    # Wheel travel in m, length of a part in m.
    (
        "wheel travel, m",
        [-0.083, -0.061, -0.045, -0.02, 0.0, 0.018, 0.041, 0.066, 0.092],
        [0.3312, 0.3189, 0.3081, 0.2932, 0.2798, 0.2694, 0.2539, 0.2381, 0.2197],
    ),
    # Length in mm, load in N: far from zero, badly scaled.
    (
        "length, mm",
        [251.0, 262.0, 280.0, 295.0, 301.0, 322.0, 348.0],
        [6120.0, 5430.0, 4410.0, 3690.0, 3450.0, 2610.0, 1720.0],
    ),
]


def interpolated(name, x, y):
    curve = PchipInterpolator(x, y)
    # The points themselves and three places inside each piece.
    inside = [a + t * (b - a) for a, b in zip(x, x[1:]) for t in (0.11, 0.5, 0.83)]
    at = sorted(x + inside)
    integral = curve.antiderivative()
    return {
        "name": name,
        "x": x,
        "y": y,
        "at": at,
        "value": curve(at).tolist(),
        "slope": curve.derivative()(at).tolist(),
        "integral": (integral(at) - integral(x[0])).tolist(),
    }


def fitted(name, x, y, degree):
    coefficients, covariance = numpy.polyfit(x, y, degree, cov="unscaled")
    # Lowest power first.
    return {
        "name": name,
        "x": x,
        "y": y,
        "degree": degree,
        "coefficients": coefficients[::-1].tolist(),
        "covariance_for_unit_variance": covariance[::-1, ::-1].tolist(),
    }


result = {
    "made_by": "pchip_polyfit.py",
    "date": datetime.date.today().isoformat(),
    "numpy": numpy.__version__,
    "scipy": scipy.__version__,
    "pchip": [interpolated(*table) for table in TABLES],
    "polyfit": [fitted(*rows, degree) for rows in ROWS for degree in (1, 2, 3)],
}


def lines(value):
    """One line for each number, text or list of numbers; nested objects stay readable."""
    if isinstance(value, dict):
        return "{\n" + ",\n".join(f"{json.dumps(k)}: {lines(v)}" for k, v in value.items()) + "\n}"
    if isinstance(value, list) and value and isinstance(value[0], dict):
        return "[\n" + ",\n".join(lines(v) for v in value) + "\n]"
    return json.dumps(value)


pathlib.Path(__file__).with_suffix(".json").write_text(lines(result) + "\n")
