"""A second opinion by general-purpose libraries, one JSON object a line, for tests/second_opinion/main.rs.

Lines and fittings by `fluids` 1.3.1; oils by ASTM D341 with its general Z, which we shorten, and their lines by
`fluids`; units by `pint` 0.25.3, and pump points in shop units by it; whole circuits in `circuits.py`. The seed is fixed, so that a failure can be looked at again;
another one can be given on the command line.
"""

import json
import math
import random
import sys

import pint
from fluids.core import Reynolds, dP_from_K
from fluids.friction import Haaland, friction_laminar

from circuits import circuits

LINES, FITTINGS, OILS, PUMPS = 5000, 1000, 1000, 1000

# What each UCUM code of ours is called by pint.
UNITS = {
    "L/min": "liter/minute", "[gal_us]/min": "gallon/minute", "bar": "bar", "[psi]": "pound_force_per_square_inch",
    "kPa": "kilopascal", "MPa": "megapascal", "kW": "kilowatt", "W": "watt", "[HP]": "horsepower",
    "{rev}/min": "revolution/minute", "mm": "millimeter", "cm": "centimeter", "m": "meter", "[in_i]": "inch",
    "[ft_i]": "foot", "kg": "kilogram", "t": "metric_ton", "[lb_av]": "pound", "cm3/{rev}": "centimeter**3",
    "[cin_i]/{rev}": "inch**3", "N.m": "newton*meter", "kN.m": "kilonewton*meter", "[lbf_av].[ft_i]": "force_pound*foot",
    "Cel": "degree_Celsius", "[degF]": "degree_Fahrenheit", "mm2/s": "millimeter**2/second", "kg/m3": "kilogram/meter**3",
    "L": "liter", "[gal_us]": "gallon", "V": "volt", "A": "ampere", "s": "second", "min": "minute", "h": "hour",
    "m/s": "meter/second", "km/h": "kilometer/hour", "[mi_i]/h": "mile/hour", "%": "percent", "1": "dimensionless",
    "kg.m2": "kilogram*meter**2", "W/K": "watt/kelvin",
}


def log_uniform(dice, low, high):
    return math.exp(dice.uniform(math.log(low), math.log(high)))


def main():
    seed = int(sys.argv[1]) if len(sys.argv) > 1 else 20261125
    dice = random.Random(seed)
    ureg = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    for code, name in UNITS.items():
        for value in (1.0, 38.0, 0.125, -17.5):
            si = ureg.Quantity(value, name).to_base_units().magnitude
            print(json.dumps({"what": "unit", "code": code, "value": value, "si": si}))
    for _ in range(LINES):
        q, d = log_uniform(dice, 0.3, 900) / 60000, log_uniform(dice, 3, 80) / 1000
        length, rough = log_uniform(dice, 0.05, 40), dice.uniform(0.0015, 0.05) / 1000
        nu, rho = log_uniform(dice, 2, 20000) * 1e-6, dice.uniform(800, 950)
        v = q / (math.pi / 4 * d * d)
        re = Reynolds(V=v, D=d, nu=nu)
        head = length / d * rho * v * v / 2
        print(json.dumps({
            "what": "line", "q": q, "d": d, "length": length, "rough": rough, "nu": nu, "rho": rho, "re": re,
            "laminar": friction_laminar(re) * head, "turbulent": Haaland(re, rough / d) * head,
        }))
    for _ in range(FITTINGS):
        q, d = log_uniform(dice, 0.3, 900) / 60000, log_uniform(dice, 3, 80) / 1000
        k, rho = log_uniform(dice, 0.05, 60), dice.uniform(800, 950)
        print(json.dumps({
            "what": "fitting", "q": q, "d": d, "k": k, "rho": rho,
            "loss": dP_from_K(K=k, rho=rho, V=q / (math.pi / 4 * d * d)),
        }))
    for _ in range(OILS):
        points = sorted([(dice.uniform(-20, 60), 0.0), (dice.uniform(70, 110), 0.0)])
        thick, thin = log_uniform(dice, 15, 3000), log_uniform(dice, 2.5, 14)
        t = dice.uniform(points[0][0] - 5, 100)
        nu = d341(points[0][0], thick, points[1][0], thin, t)
        q, d = log_uniform(dice, 3, 300) / 60000, log_uniform(dice, 6, 50) / 1000
        v = q / (math.pi / 4 * d * d)
        print(json.dumps({
            "what": "oil", "t1": points[0][0], "nu1": thick, "t2": points[1][0], "nu2": thin, "t": t, "nu": nu,
            "q": q, "d": d, "re": Reynolds(V=v, D=d, nu=nu * 1e-6),
        }))
    for _ in range(PUMPS):
        pump_point(dice, ureg)
    circuits(random.Random(seed))


def d341(t1, nu1, t2, nu2, t):
    """ASTM D341 through two points (Celsius, mm2/s), with the general Z."""
    def z(nu):
        return nu + 0.7 + math.exp(-1.47 - 1.84 * nu - 0.51 * nu * nu)

    def w(nu):
        return math.log10(math.log10(z(nu)))

    k1, k2, k = (math.log10(c + 273.15) for c in (t1, t2, t))
    b = (w(nu1) - w(nu2)) / (k2 - k1)
    z_at = 10 ** (10 ** (w(nu1) - b * (k - k1))) - 0.7
    # The inverse that the standard gives.
    return z_at - math.exp(-0.7487 - 3.295 * z_at + 0.6119 * z_at ** 2 - 0.3193 * z_at ** 3)


def pump_point(dice, ureg):
    """A pump under a torque limit, in shop units with pint doing the conversions."""
    v, n, p = dice.uniform(5, 250), dice.uniform(500, 3000), dice.uniform(5, 400)
    eta_v, eta_hm, limit = dice.uniform(0.7, 1), dice.uniform(0.7, 1), dice.uniform(20, 900)
    displacement = ureg.Quantity(v, "cm**3 / revolution")
    speed = ureg.Quantity(n, "revolution / minute")
    # pint knows a revolution as 2 pi radians, so pressure times displacement is a torque without a factor.
    torque = (ureg.Quantity(p, "bar") * displacement / eta_hm).to("N*m/radian").magnitude
    stroke = min(1.0, limit / torque)
    flow = (stroke * displacement * speed * eta_v).to("L/min").magnitude
    print(json.dumps({
        "what": "pump", "v": v, "n": n, "p": p, "eta_v": eta_v, "eta_hm": eta_hm, "limit": limit, "flow": flow,
    }))


main()
