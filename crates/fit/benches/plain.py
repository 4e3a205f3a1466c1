"""The same g as benches/core.rs in Python with the general-purpose library `fluids`, timed; then the ratios of all."""

import json
import math
import pathlib
import sys
import time

from fluids.core import Reynolds, dP_from_K
from fluids.friction import Haaland, friction_laminar

NU46 = 29.97e-6  # VG 46 at 50 °C, as in tests/reference
RHO = 870 * (1 - 7e-4 * 35)
LITRE = 1e-3 / 60
BAR = 1e5


def pipe(q, bore, length):
    d = bore / 1000
    v = q / (math.pi / 4 * d * d)
    re = Reynolds(V=v, D=d, nu=NU46)
    rough = 0.01 / bore
    if re <= 2300:
        f = friction_laminar(re)
    elif re >= 4000:
        f = Haaland(re, rough)
    else:
        low = friction_laminar(2300)
        f = low + (re - 2300) / 1700 * (Haaland(4000, rough) - low)
    return f * length / d * RHO * v * v / 2


def coupling(q, bore):
    d = bore / 1000
    return dP_from_K(K=12.0, rho=RHO, V=q / (math.pi / 4 * d * d))


def g(q, motor):
    supply = pipe(q, 19.05, 6) + pipe(q, 15.875, 2) + coupling(q, 15.875)
    element = 0.4 * BAR * q / (250 * LITRE) * NU46 * RHO / (30e-6 * 860)
    back = coupling(q, 19.05) + pipe(q, 19.05, 2) + pipe(q, 25.4, 6) + 8 * BAR * (q / (110 * LITRE)) ** 2 + element + 0.2 * BAR
    p = motor + supply + back
    flow = min(110 * LITRE, max(0, 150 * LITRE - 7 * LITRE * p / (230 * BAR)), 30e3 / p)
    passed = min(1, max(0, (p - 230 * 0.92 * BAR) / (230 * 0.08 * BAR)))
    return flow * (1 - passed) - q


def root(motor):
    low, high = 0.0, 110 * LITRE
    for _ in range(64):
        middle = (low + high) / 2
        if g(middle, motor) >= 0:
            low = middle
        else:
            high = middle
    return low


def timed(f, times):
    began = time.perf_counter()
    for i in range(times):
        f(i)
    return (time.perf_counter() - began) / times * 1e9


def criterion(name):
    text = pathlib.Path("target/criterion", name, "new", "estimates.json").read_text()
    return json.loads(text)["median"]["point_estimate"]


def shown(ns):
    for unit, size in (("s", 1e9), ("ms", 1e6), ("µs", 1e3)):
        if ns >= size:
            return f"{ns / size:.3g} {unit}"
    return f"{ns:.3g} ns"


def main():
    python_g = timed(lambda i: g((60 + i % 40) * LITRE, 160 * BAR), 20_000)
    python_root = timed(lambda i: root(160 * BAR), 200)
    g_ns, root_ns = criterion("g"), criterion("root") + criterion("compile")
    rows = [
        ("one g, compiled", g_ns, ""),
        ("one g, the plain way", criterion("g-plain"), f"{criterion('g-plain') / g_ns:.0f} ×"),
        ("one g, Python with fluids", python_g, f"{python_g / g_ns:.0f} ×"),
        ("compile a circuit", criterion("compile"), ""),
        ("one root, compiling included", root_ns, ""),
        ("one root, the plain way", criterion("root-plain"), f"{criterion('root-plain') / root_ns:.0f} ×"),
        ("one root, Python with fluids", python_root, f"{python_root / root_ns:.0f} ×"),
        ("one verdict: fits as it is", criterion("verdict"), ""),
        ("one verdict: fits after changes", criterion("verdict-with-changes"), ""),
        ("one pairing: fits as it is", criterion("pairing"), ""),
        ("one pairing: fits after changes", criterion("pairing-with-changes"), ""),
        ("verdicts of 1 000 × 200", criterion("stock/1000x200"), ""),
    ]
    for name, ns, ratio in rows:
        print(f"{name:36}{shown(ns):>12}  {ratio}")
    # The two speak of the same circuit.
    print(f"root in Python: {root(160 * BAR) / LITRE:.6f} L/min", file=sys.stderr)


main()
