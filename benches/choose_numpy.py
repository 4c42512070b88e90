"""The same work as choosing from the parts list, in numpy: draws of the demo's front axle, and ranking of a long list.

Reads the numbers as JSON from standard input, writes times and results as JSON. Written apart from the program, from the
equations: force along the spring k (L0 - L), at the wheel times r, rubber beside it; where it stands by Newton's steps.
"""
import json
import sys
import time

import numpy as np

G = 9.80665
asked = json.load(sys.stdin)
VALUE = {i["path"]: i["value"] for i in asked["inputs"]}
WISH = asked["wish"]
LOW, HIGH = asked["frequency"]
ROWS_Z = np.array(asked["rows_z"])
FIT = np.linalg.pinv(np.vander(ROWS_Z, 3, increasing=True))
WHEELBASE = "vehicle.wheelbase"


def ground(get):
    """The front axle of the demo, each input a number or an array of draws."""
    lengths = np.array([get("front.ratio.rows[%d].length" % i) for i in range(len(ROWS_Z))])
    c0, c1, c2 = np.tensordot(FIT, lengths, axes=1)
    c0 = get("front.spring.fitted_length")
    front = get("after.lf") + get("after.rf")
    unsprung = get("front.unsprung")
    axles = [front]
    for case, count in enumerate(asked["cases"]):
        loads = 0.0
        for i in range(count):
            at = "cases[%d].loads[%d]." % (case, i)
            loads = loads + get(at + "mass") * (1.0 - get(at + "x") / get(WHEELBASE))
        axles.append(front + loads)
    return {
        "c": (c0, c1, c2),
        "rubber": get("front.parallel.rate"),
        "sprung": [axle / 2.0 - unsprung for axle in axles],
        "gap": get("front.travel.stop_gap"),
        "metal": get("front.travel.metal"),
        "droop": get("front.travel.droop"),
    }


def length(g, z):
    c0, c1, c2 = g["c"]
    return c0 + z * (c1 + z * c2)


def ratio(g, z):
    return -g["c"][1] - 2.0 * z * g["c"][2]


def force_and_rate(g, k, free, z):
    r = ratio(g, z)
    squeeze = free - length(g, z)
    along = np.where(squeeze > 0.0, k * squeeze, 0.0)
    rate = np.where(squeeze > 0.0, k, 0.0) * r * r - 2.0 * g["c"][2] * along + g["rubber"]
    return along * r + g["rubber"] * z, rate


def settle(g, k, free, load, z):
    for _ in range(8):
        force, rate = force_and_rate(g, k, free, z)
        step = (load - force) / rate
        if np.max(np.abs(step)) <= 1e-9:
            break
        z = z + step
    return z, rate


def margins(g, k, free0, solid, cut=None):
    """Of slow, quick, laden, height, stop, bind, seat; on a spacer that was cut before, else on the one that suits."""
    kg = g["sprung"][0]
    needed = kg * G / ratio(g, 0.0)
    wanted_free = length(g, 0.0) + needed / k
    spacer = np.clip(wanted_free - free0, -WISH["down"], WISH["up"]) if cut is None else np.full_like(free0, cut)
    free = free0 + spacer
    z, rate = settle(g, k, free, kg * G, np.zeros_like(free))
    f = np.sqrt(rate / kg) / (2.0 * np.pi)
    laden, stop = np.inf, g["gap"] - z
    for laden_kg in g["sprung"][1:]:
        z1, rate1 = settle(g, k, free, laden_kg * G, z)
        f1 = np.sqrt(rate1 / laden_kg) / (2.0 * np.pi)
        room = np.minimum(f1 - LOW * (1.0 - WISH["laden"]), HIGH * (1.0 + WISH["laden"]) - f1)
        laden, stop = np.minimum(laden, room), np.minimum(stop, g["gap"] - z1)
    return (
        f - LOW,
        HIGH - f,
        laden,
        WISH["height"] - np.abs(z),
        stop,
        length(g, g["metal"]) - solid - spacer - WISH["bind"],
        free - length(g, -g["droop"]) - WISH["seat"],
    ), f, -z, spacer


def draws():
    random = np.random.default_rng(asked["seed"])
    n = asked["draws"]
    drawn = {}
    for i in asked["inputs"]:
        if i["normal"]:
            drawn[i["path"]] = random.normal(i["value"], i["u"], n)
        else:
            reach = i["u"] * np.sqrt(3.0)
            drawn[i["path"]] = random.uniform(i["value"] - reach, i["value"] + reach, n)
    of_rate, of_length = random.uniform(-1.0, 1.0, (2, n))
    settle_u, settle_normal = asked["settle"]
    settles = settle_u * (random.normal(0.0, 1.0, n) if settle_normal else np.sqrt(3.0) * random.uniform(-1.0, 1.0, n))
    still = ground(lambda path: VALUE[path])
    g = ground(lambda path: drawn.get(path, VALUE.get(path)))
    mid = (LOW + HIGH) / 2.0
    kg = g["sprung"][0]
    r = ratio(g, 0.0)
    wheel = kg * (2.0 * np.pi * mid) ** 2
    needed = np.sort((wheel - g["rubber"] + 2.0 * g["c"][2] * kg * G / r) / r**2)
    chances, as_fitted, means = [], [], []
    for rate, tolerance, free, length_tolerance, solid in asked["springs"]:
        bought = rate * (1.0 + tolerance * of_rate), free + length_tolerance * of_length - settles, solid
        cut = float(margins(still, np.array([rate]), np.array([free]), solid)[3][0])
        m = margins(g, *bought, cut)[0]
        as_fitted.append(held(m, n))
        m, f, above, spacer = margins(g, *bought)
        broken = [np.count_nonzero(one < 0.0) for one in m]
        chances.append(held(m, n))
        means.append([f.mean(), f.std(), above.mean(), above.std(), spacer.mean(), spacer.std(), broken])
    return (chances, as_fitted), [needed.mean(), needed.std(), needed[int(0.025 * n)], needed[int(0.975 * n)]], means


def held(m, n):
    all_of_them = np.ones(n, bool)
    for one in m:
        all_of_them &= one >= 0.0
    return np.count_nonzero(all_of_them) / n


def ranking(rows):
    g = {key: value for key, value in ground(lambda path: VALUE[path]).items()}
    m, *_ = margins(g, rows[:, 0], rows[:, 1], rows[:, 2])
    score = np.full(len(rows), np.inf)
    for one, spread in zip(m, asked["spread"]):
        score = np.minimum(score, one / spread)
    order = np.argsort(-score, kind="stable")
    return order, int(np.count_nonzero(score >= 0.0))


def timed(work):
    took = []
    for _ in range(asked["runs"]):
        start = time.perf_counter()
        result = work()
        took.append(1e3 * (time.perf_counter() - start))
    return took, result


draws_ms, ((chances, as_fitted), needed, means) = timed(draws)
rows = np.array(asked["list"])
ranking_ms, (order, fitting) = timed(lambda: ranking(rows))
spread = [[float(v) for v in m[:6]] for m in means]
print(json.dumps({"draws_ms": draws_ms, "ranking_ms": ranking_ms, "chances": chances, "as_fitted": as_fitted, "fitting": fitting,
                  "best": [int(i) for i in order[:8]], "needed": [float(v) for v in needed], "springs": spread}))
