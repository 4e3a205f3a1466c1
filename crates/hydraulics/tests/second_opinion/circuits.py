"""A second opinion on whole circuits: random ones, solved by general-purpose libraries from the formulas of the trade.

One JSON object a line. Everything is in coherent SI units, pressures are gauge pressures. The friction factors, Reynolds numbers and
losses of fittings are those of `fluids`; every root is found by SciPy's `brentq`; what is neither is written out as a
handbook has it:

- Pumps: flow falls with leakage in a straight line, `Q = Q_max - leak*p/p_leak`; a power limit holds `p*Q`; a set flow caps it.
  A cut-off takes the flow away in a straight line over a band below it. A load-sensing pump stands a margin above the load, so
  that leakage and limit act there, and near its cut-off gives `Q_set*sqrt((p_cut - p)/margin)`.
- Relief: shut up to its cracking pressure, open for everything at its full-flow pressure, and in proportion between.
- Lines: Darcy-Weisbach; 64/Re up to Re 2300, Haaland from Re 4000, in between linear in Re from the one to the other.
- Filter: element in proportion to flow and dynamic viscosity; bypass `Q = K*sqrt(p - p_by)`, found as the pressure at which the two
  share the flow; the housing behind both with the flow squared.
- Where a relief stands on the port of a divider, the pumps are its loss above it; a stalled head has the relief's pressure alone.
- A motor leaks a share of its flow into its housing, or what is stated.
- Functions beside the head without a divider: the pumps stand at the higher of the two loads, and what they give there is shared in
  the order of the main valve: the lower pressure first (open centre in parallel, load sensing with compensators before the spools),
  or the head first (tandem).
- A divider in a pump's line gives the head its set flow first. Pumps that share a power limit are stroked alike: the stroke is found
  at which they take just that power.

The balance is the flow at which what reaches the head at the pressure that this flow needs is that flow.
"""

import json
import math

from fluids.core import Reynolds, dP_from_K
from fluids.friction import Haaland, friction_laminar
from scipy.constants import bar, g, liter, minute
from scipy.optimize import brentq

CIRCUITS = 1000
LAMINAR_UP_TO, TURBULENT_FROM = 2300.0, 4000.0
LITRES = liter / minute
# Element of a filter: its sheet states the loss for oil of this density.
SHEET_DENSITY = 860.0
# As fine as doubles allow.
FINE = {"xtol": 1e-300, "rtol": 8.9e-16, "maxiter": 400}
# A check valve and a blocked filter need their opening pressure as soon as anything flows: a stall is judged just above no flow.
JUST_FLOWING = 1e-9


def circuits(dice):
    for _ in range(CIRCUITS):
        circuit = draw(dice)
        print(json.dumps({"what": "circuit", **circuit, "answer": solve(circuit)}))


# What is drawn.

def log_uniform(dice, low, high):
    return math.exp(dice.uniform(math.log(low), math.log(high)))


def draw(dice):
    greatest = log_uniform(dice, 15, 350) * LITRES
    full_flow = dice.uniform(120, 380) * bar
    kind = dice.choices(["divided", "shared", "alone"], [35, 20, 45])[0]
    divided = kind == "divided"
    # What a divider's port loses before the relief on it.
    behind = dice.uniform(3, 16) * bar if not divided and dice.random() < 0.2 else 0.0
    circuit = {
        "oil": {"nu": log_uniform(dice, 8, 1200) * 1e-6, "rho": dice.uniform(815, 895)},
        "source": draw_source(dice, greatest, full_flow, not divided),
        "divided": draw_divided(dice, greatest, full_flow) if divided else None,
        "shared": draw_shared(dice, greatest, full_flow) if kind == "shared" else None,
        "relief": {
            "cracking": full_flow * (1 - dice.uniform(0.02, 0.25)), "full_flow": full_flow, "behind": behind,
        },
        "supply": [{"kind": "constant", "pressure": behind}] + draw_way(dice, greatest, False),
        "back": draw_way(dice, greatest, True),
        "drain": draw_drain(dice, greatest) if dice.random() < 0.6 else None,
        # Now and then more than there can be: then it stalls.
        "motor": dice.uniform(0.05, 1.05) * full_flow,
        "eta_pump": dice.uniform(0.75, 0.95), "eta_v": dice.uniform(0.8, 1), "eta_hm": dice.uniform(0.7, 1),
        "useful": dice.uniform(0.3, 1),
    }
    return circuit


def draw_source(dice, greatest, full_flow, with_cut_off):
    rated = dice.uniform(0.6, 1.5) * full_flow
    kind = dice.choice(["none", "at-load", "compensated", "load-sensing", "none"])
    cut_off = None
    if with_cut_off and kind != "none":
        at = dice.uniform(0.7, 1.2) * full_flow
        cut_off = {"kind": kind, "pressure": at}
        if kind == "load-sensing":
            cut_off["margin"] = dice.uniform(10, 30) * bar
        else:
            cut_off["band"] = dice.uniform(0.02, 0.1)
    return {
        "greatest": greatest, "set": dice.uniform(0.3, 1.1) * greatest if dice.random() < 0.6 else None,
        "leak": dice.uniform(0, 0.12) * greatest, "leak_at": rated,
        "power": dice.uniform(0.25, 1.1) * greatest * full_flow if dice.random() < 0.75 else None,
        "cut_off": cut_off,
        # Only a constant pump leaves over what is not taken, and it has no cut-off.
        "surplus_is_pumped": cut_off is None and dice.random() < 0.5,
    }


def draw_shared(dice, greatest, full_flow):
    return {
        "order": dice.choice(["parallel", "head-first", "pre-compensated"]),
        "wanted": dice.uniform(0.05, 0.9) * greatest, "pressure": dice.uniform(0.05, 0.9) * full_flow,
    }


def draw_divided(dice, greatest, full_flow):
    pumps = dice.choice([1, 2, 2])
    legs = []
    for index in range(pumps):
        own = greatest * dice.uniform(0.8, 1.2) / pumps
        # The second pump may feed its functions alone, and only share the power.
        with_divider = index == 0 or dice.random() < 0.7
        legs.append({
            "greatest": own, "leak": dice.uniform(0.02, 0.12) * own, "leak_at": dice.uniform(0.7, 1.4) * full_flow,
            "functions": dice.uniform(0.05, 1.2) * full_flow,
            "divider": {
                "set": dice.uniform(0.2, 0.9) * own, "metering": dice.uniform(4, 16) * bar, "excess": dice.uniform(1, 6) * bar,
            } if with_divider else None,
        })
    kind = dice.choice(["pressure-sum", "pressure-sum", "individual", "none"])
    share = dice.uniform(0.25, 0.9) * full_flow * greatest
    limit = {"pressure-sum": share, "individual": share / pumps, "none": None}[kind]
    return {"legs": legs, "limit": limit, "sum": "individual" if kind == "none" else kind}


def draw_pipe(dice, flow, fast):
    """A line in which a flow is about as fast as such lines are laid out for, from half to twice that."""
    velocity = fast * log_uniform(dice, 0.5, 2)
    return {
        "kind": "pipe", "bore": min(max(math.sqrt(4 * flow / math.pi / velocity), 0.006), 0.08),
        "length": log_uniform(dice, 0.2, 14), "roughness": dice.uniform(0.0015, 0.02) / 1000,
    }


def draw_way(dice, greatest, back):
    fast = 3.0 if back else 6.0
    pieces = [draw_pipe(dice, greatest, fast) for _ in range(dice.choice([1, 1, 2, 3]))]
    for _ in range(dice.choice([0, 1, 2])):
        pieces.append({"kind": "fitting", "k": log_uniform(dice, 0.3, 20), "bore": pieces[0]["bore"]})
    for _ in range(dice.choice([0, 1, 2])):
        pieces.append({"kind": "point", "loss": dice.uniform(0.5, 12) * bar, "flow": dice.uniform(0.5, 1.5) * greatest})
    if back:
        if dice.random() < 0.7:
            pieces.append(draw_filter(dice, greatest))
        if dice.random() < 0.3:
            cracking = dice.uniform(0.3, 3) * bar
            pieces.append({
                "kind": "check", "cracking": cracking, "loss": cracking + dice.uniform(0, 3) * bar, "flow": greatest,
            })
        pieces.append({"kind": "constant", "pressure": dice.uniform(0, 0.5) * bar})
    if dice.random() < 0.3:
        # A motor above the pump, or a tank below the motor: a height of oil.
        height = dice.uniform(0, 5)
        pieces.append({"kind": "height", "height": height})
    return pieces


def draw_filter(dice, greatest):
    flow = dice.uniform(0.8, 3) * greatest
    return {
        "kind": "filter", "element": dice.uniform(0.1, 1.0) * bar, "housing": dice.uniform(0, 0.5) * bar, "flow": flow,
        "nu": dice.uniform(20, 40) * 1e-6, "bypass": dice.uniform(1.5, 3.5) * bar, "bypass_flow": dice.uniform(0.7, 1.3) * flow,
        "state": dice.choice(["clean", "clean", "half-loaded", "blocked"]),
    }


def draw_drain(dice, greatest):
    stalled = dice.uniform(0.01, 0.08) * greatest
    stated = dice.random() < 0.3
    return {
        "share": 0.0 if stated else dice.uniform(0.005, 0.12), "stated": stalled if stated else 0.0,
        "stalled": stalled, "line": [draw_pipe(dice, stalled, 1.5)],
        "tank": dice.uniform(0, 0.5) * bar, "above": dice.uniform(-3, 2),
    }


# What a flow loses.

def piece_loss(piece, flow, oil):
    nu, rho = oil["nu"], oil["rho"]
    if piece["kind"] == "constant":
        return piece["pressure"]
    if piece["kind"] == "height":
        return rho * g * piece["height"]
    if flow <= 0:
        return 0.0
    if piece["kind"] == "pipe":
        bore = piece["bore"]
        velocity = flow / (math.pi / 4 * bore ** 2)
        factor = friction(Reynolds(V=velocity, D=bore, nu=nu), piece["roughness"] / bore)
        return factor * piece["length"] / bore * rho * velocity ** 2 / 2
    if piece["kind"] == "fitting":
        return dP_from_K(K=piece["k"], rho=rho, V=flow / (math.pi / 4 * piece["bore"] ** 2))
    if piece["kind"] == "point":
        return piece["loss"] * (flow / piece["flow"]) ** 2
    if piece["kind"] == "check":
        return piece["cracking"] + (piece["loss"] - piece["cracking"]) * (flow / piece["flow"]) ** 2
    return filter_loss(piece, flow, oil)


def friction(re, relative):
    if re <= LAMINAR_UP_TO:
        return friction_laminar(re)
    if re >= TURBULENT_FROM:
        return Haaland(re, relative)
    share = (re - LAMINAR_UP_TO) / (TURBULENT_FROM - LAMINAR_UP_TO)
    return (1 - share) * friction_laminar(LAMINAR_UP_TO) + share * Haaland(TURBULENT_FROM, relative)


def filter_loss(piece, flow, oil):
    housing = piece["housing"] * (flow / piece["flow"]) ** 2 * oil["rho"] / SHEET_DENSITY
    return across_element(piece, flow, oil)[0] + housing


def across_element(piece, flow, oil):
    """Pressure over element and bypass, and whether the bypass is open: the one at which the two take the whole flow."""
    opens = piece["bypass"]
    # The bypass alone passes its flow at one and a half times its opening pressure.
    constant = piece["bypass_flow"] / math.sqrt(1.5 * opens - opens)
    if piece["state"] == "blocked":
        return opens + (flow / constant) ** 2, True
    dirt = {"clean": 1, "half-loaded": 2}[piece["state"]]
    thicker = oil["rho"] * oil["nu"] / (SHEET_DENSITY * piece["nu"])
    per_pressure = piece["flow"] / (piece["element"] * thicker * dirt)
    if flow / per_pressure <= opens:
        return flow / per_pressure, False

    def too_much(p):
        return p * per_pressure + constant * math.sqrt(p - opens) - flow

    return brentq(too_much, opens, flow / per_pressure, **FINE), True


def way_loss(way, flow, oil):
    return sum(piece_loss(piece, flow, oil) for piece in way)


# What the pumps give.

def free_flow(pump, p):
    return max(pump["greatest"] - pump["leak"] * p / pump["leak_at"], 0.0)


def offered(source, p, with_set=True):
    """What pumps without a divider offer at a pressure of their circuit."""
    cut, at_pump = source["cut_off"], p
    if cut and cut["kind"] == "load-sensing":
        at_pump = max(min(p + cut["margin"], cut["pressure"]), p)
    pump = free_flow(source, at_pump)
    wanted = source["set"] if with_set and source["set"] is not None else pump
    if cut and cut["kind"] == "load-sensing":
        wanted *= math.sqrt(min(max((cut["pressure"] - p) / cut["margin"], 0.0), 1.0))
    elif cut:
        pump *= min(max((cut["pressure"] - p) / (cut["band"] * cut["pressure"]), 0.0), 1.0)
    flow = min(wanted, pump)
    if source["power"] is not None and at_pump > 0:
        flow = min(flow, source["power"] / at_pump)
    return flow


def pressure_of_pumps(source, p, taken):
    """Where pumps stand whose circuit stands at a pressure and takes a flow."""
    cut = source["cut_off"]
    if cut is None or cut["kind"] == "at-load":
        return p
    if cut["kind"] == "load-sensing":
        return max(min(p + cut["margin"], cut["pressure"]), p)
    # Compensated: at its compensator while less is taken than it could give, or where its limiter lets it give just that.
    if taken >= offered(source, p, with_set=False) * (1 - 1e-9):
        return p
    by_power = math.inf if source["power"] is None or taken <= 0 else source["power"] / taken
    return max(min(cut["pressure"], by_power), p)


def left_by_functions(source, shared, p):
    """What functions beside it leave for a head at a pressure."""
    given = offered(source, max(p, shared["pressure"]), with_set=False)
    head_wants = source["greatest"] if source["set"] is None else source["set"]
    rest = max(given - shared["wanted"], 0.0)
    left = rest if shared["order"] != "head-first" and p > shared["pressure"] else given
    # Never more than it wants, nor than the pumps give at its own pressure.
    return min(left, head_wants, offered(source, p))


def open_share(relief, p):
    """How far a relief is open at a pressure of the pumps: the share of what it is offered that it passes."""
    return min(max((p - relief["behind"] - relief["cracking"]) / (relief["full_flow"] - relief["cracking"]), 0.0), 1.0)


# Pumps with dividers.

def leg_at(leg, head, flow):
    """State, pump's pressure, flow to the head and to the functions of one pump whose flow at a pressure is a function."""
    divider = leg["divider"]
    if divider is None:
        return "functions", leg["functions"], 0.0, flow(leg["functions"])
    wanted, own = divider["set"], head + divider["metering"]
    higher = max(own, leg["functions"] + divider["excess"])
    if flow(higher) >= wanted:
        return "both", higher, wanted, flow(higher) - wanted
    if flow(own) >= wanted:
        floats = brentq(lambda p: flow(p) - wanted, own, higher, **FINE)
        return "functions-shut", floats, wanted, 0.0

    def metered(q):
        return head + divider["metering"] * (q / wanted) ** 2

    to_head = brentq(lambda q: flow(metered(q)) - q, 0.0, wanted, **FINE)
    return "all-to-head", metered(to_head), to_head, 0.0


def legs_at(divided, head):
    """Every leg at a pressure of the head's port."""
    legs, limit = divided["legs"], divided["limit"]

    def stroked(stroke):
        return [leg_at(leg, head, lambda p, leg=leg: stroke * free_flow(leg, p)) for leg in legs]

    if limit is None:
        return stroked(1.0)
    if divided["sum"] == "individual":
        return [leg_at(leg, head, lambda p, leg=leg: min(free_flow(leg, p), limit / p)) for leg in legs]

    def spare(stroke):
        taken = sum(at[1] * stroke * free_flow(leg, at[1]) for leg, at in zip(legs, stroked(stroke)))
        return limit - taken

    return stroked(1.0) if spare(1.0) >= 0 else stroked(brentq(spare, 1e-12, 1.0, **FINE))


# The balance.

def solve(circuit):
    oil, relief, divided = circuit["oil"], circuit["relief"], circuit["divided"]
    source, drain, motor = circuit["source"], circuit["drain"], circuit["motor"]

    def leaks(q):
        # Of what flows in, a tenth at the least turns the motor.
        return min(drain["share"] * q + drain["stated"], 0.9 * q) if drain else 0.0

    def outlet(q):
        return way_loss(circuit["back"], q - leaks(q), oil)

    def beginning(q):
        return motor + outlet(q) + way_loss(circuit["supply"], q, oil)

    def to_branch(p):
        if divided:
            return sum(leg[2] for leg in legs_at(divided, p))
        return left_by_functions(source, circuit["shared"], p) if circuit["shared"] else offered(source, p)

    def surplus(q):
        p = beginning(q)
        return to_branch(p) * (1 - open_share(relief, p)) - q

    most = sum(leg["greatest"] for leg in divided["legs"]) if divided else offered(source, 0.0)
    if surplus(most * JUST_FLOWING) <= 0:
        # Nothing flows: of relief and cut-off the one that comes first ends the pressure.
        cut = source["cut_off"]
        p = relief["full_flow"] + relief["behind"]
        p = min(p, cut["pressure"]) if cut else p
        inlet = min(p, relief["full_flow"])
        flow, out, leaked = 0.0, outlet(0.0), drain["stalled"] if drain else 0.0
    else:
        flow = most if surplus(most) >= 0 else brentq(surplus, most * JUST_FLOWING, most, **FINE)
        p, out, leaked = beginning(flow), outlet(flow), leaks(flow)
        inlet = out + motor
    answer = {"flow": flow, "supply": p, "inlet": inlet, "outlet": out, "stalls": flow == 0.0}
    if drain:
        case = drain["tank"] + oil["rho"] * g * drain["above"] + way_loss(drain["line"], leaked, oil)
        answer["case"] = case
    answer.update(shares(circuit, flow, p))
    back = flow - leaks(flow)
    answer["on_bypass"] = any(
        piece["kind"] == "filter" and back > 0 and across_element(piece, back, oil)[1] for piece in circuit["back"]
    )
    answer["heat"] = heat(circuit, answer)
    return answer


def shares(circuit, flow, p):
    """Who else gets what: pumps, relief, bypass and functions."""
    relief, source, divided = circuit["relief"], circuit["source"], circuit["divided"]
    if divided:
        legs = legs_at(divided, p)
        pumped = sum(leg[2] for leg in legs)
        return {
            "pumped": pumped, "over_relief": pumped * open_share(relief, p),
            "legs": [{"state": s, "pump": at, "head": h, "functions": f} for s, at, h, f in legs],
            "limited": divided["sum"] == "pressure-sum" and power_of(legs) > 0.999_999 * divided["limit"],
        }
    if circuit["shared"]:
        return shares_beside_functions(circuit, flow, p)
    branch = offered(source, p)
    pumped = offered(source, p, with_set=False) if source["surplus_is_pumped"] else branch
    at_pump = pressure_of_pumps(source, p, branch)
    limited = source["power"] is not None and branch * at_pump > 0.999_999 * source["power"]
    return {"pumped": pumped, "over_relief": branch * open_share(relief, p), "pump": at_pump, "limited": limited}


def shares_beside_functions(circuit, flow, p):
    source, functions = circuit["source"], circuit["shared"]
    open_by = open_share(circuit["relief"], p)
    # What the relief lets go goes with the head's flow; stalled, all that is left for the head.
    pumped = flow / (1 - open_by) if flow > 0 else left_by_functions(source, functions, p)
    stands_at = max(p, functions["pressure"])
    beside = max(offered(source, stands_at, with_set=False) - pumped, 0.0)
    to_functions = min(functions["wanted"], beside)
    at_pump = pressure_of_pumps(source, stands_at, pumped + to_functions)
    return {
        "pumped": pumped, "over_relief": pumped * open_by, "pump": at_pump, "functions": to_functions,
        "bypassed": beside - to_functions if source["surplus_is_pumped"] else 0.0, "limited": False,
    }


def power_of(legs):
    return sum(at * (h + f) for _, at, h, f in legs)


def heat(circuit, answer):
    """Everything that goes in at the pumps' shaft and leaves neither by the motor's shaft nor as work of the functions."""
    rotor = (answer["inlet"] - answer["outlet"]) * answer["flow"] * circuit["eta_v"] * circuit["eta_hm"]
    if circuit["divided"]:
        given = sum(leg["pump"] * (leg["head"] + leg["functions"]) for leg in answer["legs"])
        work = sum(
            own["functions"] * leg["functions"] for own, leg in zip(circuit["divided"]["legs"], answer["legs"])
        ) * circuit["useful"]
    elif circuit["shared"]:
        given = answer["pump"] * (answer["pumped"] + answer["functions"] + answer["bypassed"])
        work = circuit["shared"]["pressure"] * answer["functions"] * circuit["useful"]
    else:
        # What a constant pump leaves over goes back at the circuit's pressure, like what the head takes.
        given, work = answer["pump"] * answer["pumped"], 0.0
    return given / circuit["eta_pump"] - rotor - work
