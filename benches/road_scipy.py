"""The same runs over a rough road by scipy.integrate.solve_ivp, on the numbers that benches/road.rs sends.

Reads a JSON object from standard input, prints another: seconds, steps, and travel at every sample, for the quarter car and for
the half car, once as timed and once far tighter as the reference.
"""

import json
import sys
import time

import numpy
from scipy.integrate import solve_ivp
from scipy.interpolate import PPoly


def by_library(asked):
    """As one writes it with these libraries: a piecewise polynomial for the road, numpy.interp for the tables."""
    spacing, pieces = asked["road"]["spacing"], numpy.array(asked["road"]["pieces"])
    powers = numpy.array([1.0, spacing, spacing**2, spacing**3])
    knots = spacing * numpy.arange(len(pieces) + 1)
    profile = PPoly((pieces / powers).T[::-1], knots, extrapolate="periodic")

    def road(x):
        return profile(x) if x > 0.0 else profile(0.0)

    def wheel(w):
        cells = numpy.array(w["cells"])
        force = numpy.append(cells[:, 0], cells[-1].sum())
        travel = w["low"] + numpy.arange(len(force)) / w["per_m"]
        # The end slopes go on: far points on them.
        far = 10.0
        ends = [force[0] - far * w["per_m"] * cells[0, 1], force[-1] + far * w["per_m"] * cells[-1, 1]]
        travel = numpy.concatenate([[travel[0] - far], travel, [travel[-1] + far]])
        force = numpy.concatenate([[ends[0]], force, [ends[1]]])
        v, f = numpy.array(w["damper"]).T
        low, high = (f[1] - f[0]) / (v[1] - v[0]), (f[-1] - f[-2]) / (v[-1] - v[-2])
        v = numpy.concatenate([[v[0] - far], v, [v[-1] + far]])
        f = numpy.concatenate([[f[0] - far * low], f, [f[-1] + far * high]])
        r0, r1 = w["ratio"]
        standing = w["load"] + w["unsprung"] * w["g"]

        def forces(pressed, speed, squeeze):
            z = w["rest"] + pressed
            ratio = r0 + r1 * z
            up = numpy.interp(z, travel, force) + ratio * numpy.interp(ratio * speed, v, f) - w["load"]
            tyre = max(standing + w["tyre"] * squeeze, 0.0)
            return up, (tyre - standing - up) / w["unsprung"]

        return forces

    return road, [wheel(w) for w in asked["wheels"]]


def by_hand(asked):
    """Plain Python functions on plain lists: about the fastest that scalar Python code can be."""
    spacing, pieces = asked["road"]["spacing"], asked["road"]["pieces"]
    count, per_m = len(pieces), 1.0 / spacing

    def road(x):
        place = x * per_m
        if place < 0.0:
            return pieces[0][0]
        if place >= count:
            place %= count
        i = int(place)
        a, b, c, d = pieces[i]
        t = place - i
        return a + t * (b + t * (c + t * d))

    def wheel(w):
        low, per_m, cells, rest = w["low"], w["per_m"], w["cells"], w["rest"]
        last, load, points = len(cells) - 1, w["load"], w["damper"]
        r0, r1 = w["ratio"]
        lines = [(v, f, (points[i + 1][1] - f) / (points[i + 1][0] - v)) for i, (v, f) in enumerate(points[:-1])]
        mu, kt = w["unsprung"], w["tyre"]
        standing = load + mu * w["g"]

        def forces(pressed, speed, squeeze):
            place = (rest + pressed - low) * per_m
            i = min(int(place), last) if place > 0.0 else 0
            f, rise = cells[i]
            ratio = r0 + r1 * (rest + pressed)
            at = ratio * speed
            line = lines[0]
            for following in lines[1:]:
                if at < following[0]:
                    break
                line = following
            up = f + (place - i) * rise + ratio * (line[1] + line[2] * (at - line[0])) - load
            tyre = standing + kt * squeeze
            if tyre < 0.0:
                tyre = 0.0
            return up, (tyre - standing - up) / mu

        return forces

    return road, [wheel(w) for w in asked["wheels"]]


def quarter(asked, tables):
    road, (forces, *_) = tables(asked)
    speed, ms = asked["speed"], asked["wheels"][0]["sprung"]

    def slopes(t, y):
        zs, vs, zu, vu = y.tolist()
        up, wheel = forces(zu - zs, vu - vs, road(speed * t) - zu)
        return [vs, up / ms, vu, wheel]

    z = road(0.0)
    return slopes, [z, 0.0, z, 0.0], lambda y: y[2] - y[0]


def half(asked, tables):
    road, (front, rear) = tables(asked)
    speed, length = asked["speed"], asked["wheelbase"]
    mf, mr = (w["sprung"] for w in asked["wheels"])
    m = mf + mr
    a = length * mr / m
    b = length - a
    inertia = m * a * b

    def slopes(t, y):
        z, v, p, w, zf, vf, zr, vr = y.tolist()
        x = speed * t
        up_f, wheel_f = front(zf - z - a * p, vf - v - a * w, road(x) - zf)
        up_r, wheel_r = rear(zr - z + b * p, vr - v + b * w, road(x - length) - zr)
        return [v, (up_f + up_r) / m, w, (a * up_f - b * up_r) / inertia, vf, wheel_f, vr, wheel_r]

    z = road(0.0)
    return slopes, [z, 0.0, 0.0, 0.0, z, 0.0, z, 0.0], lambda y: y[4] - y[0] - a * y[2]


def run(asked, model, tables, method, rtol, atol, longest=numpy.inf):
    slopes, start, travel = model(asked, tables)
    at = numpy.arange(asked["samples"]) * asked["every"]
    began = time.perf_counter()
    found = solve_ivp(
        slopes, (0.0, asked["until"]), start, method=method, t_eval=at, rtol=rtol, atol=atol, max_step=longest
    )
    took = time.perf_counter() - began
    return {"seconds": took, "calls": int(found.nfev), "travel": travel(found.y).tolist()}


def main():
    asked = json.load(sys.stdin)
    method, rtol, atol = asked["method"], asked["rtol"], asked["atol"]
    answer = {}
    for name, model in (("quarter", quarter), ("half", half)):
        def timed(tables):
            runs = [run(asked, model, tables, method, rtol, atol) for _ in range(asked["runs"])]
            return {**runs[0], "ms": [1e3 * r["seconds"] for r in runs]}

        reference = run(asked, model, by_hand, "DOP853", 1e-10, 1e-12, 0.002)
        answer[name] = {"library": timed(by_library), "hand": timed(by_hand), "reference": reference}
    json.dump(answer, sys.stdout)


main()
