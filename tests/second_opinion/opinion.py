"""A second opinion by general-purpose libraries, one JSON object a line, for tests/second_opinion/main.rs.

Lines and fittings by `fluids` 1.3.1, units by `pint` 0.25.3. The seed is fixed, so that a failure can be looked at again;
another one can be given on the command line.
"""

import json
import math
import random
import sys

import pint
from fluids.core import Reynolds, dP_from_K
from fluids.flow_meter import flow_meter_discharge
from fluids.friction import Haaland, friction_laminar

LINES, FITTINGS, ORIFICES = 5000, 1000, 1000

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
    dice = random.Random(int(sys.argv[1]) if len(sys.argv) > 1 else 20261125)
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
    for _ in range(ORIFICES):
        d, c = log_uniform(dice, 0.3, 40) / 1000, dice.uniform(0.5, 0.98)
        dp, rho = log_uniform(dice, 0.01, 420) * 1e5, dice.uniform(800, 950)
        # A pipe a thousand times as wide: the velocity of approach has no part in it.
        mass = flow_meter_discharge(D=1000 * d, Do=d, P1=dp + 1e5, P2=1e5, rho=rho, C=c)
        print(json.dumps({"what": "orifice", "d": d, "c": c, "dp": dp, "rho": rho, "q": mass / rho}))


main()
