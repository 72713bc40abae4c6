"""One plenum with an oil branch, solved by four independent programs.

Incompressible: ram ── inlet ── plenum ── cylinders, leak, oil branch ── lower deck ── exit.
"""

from math import log10, pi, sqrt

import numpy as np
from scipy.optimize import brentq, root

from output import digits, write_table
from pipe_programs import (
    G,
    MU,
    RHO,
    epanet_head,
    epanet_model,
    epanet_solved,
    pandapipes_boundary,
    pandapipes_net,
    pandapipes_node,
    pandapipes_solved,
)

RAM = 0.5 * RHO * 60.0**2  # Pa
SINK = -0.10 * RAM
INLET = (0.35, 0.025)  # K, m²
CYLINDERS = (3.0, 0.030)
LEAK = (1 / 0.61**2, 0.004)
EXIT = (1.0, 0.040)
DUCT_M = 0.1016
DUCT = pi / 4 * DUCT_M**2
DUCT_LENGTH = 1.0
ROUGHNESS = 0.02
SHUTTER = {0: 0.3, 30: 3.91, 50: 32.6, 60: 118.0}

COLUMNS = (
    "shutter_deg",
    "hose_friction",
    "cylinder_law",
    "solver",
    "plenum_pa",
    "lower_pa",
    "total_kg_s",
    "cylinder_kg_s",
    "leak_kg_s",
    "oil_kg_s",
    "tag",
    "seen",
)


def resistance(k, area):
    """Δp = K / (2 ρ A²) W²"""
    return k / (2 * RHO * area**2)


def oil_k(angle):
    return 0.6 + 2 * 0.25 + SHUTTER[angle] + 1.0 + 4.0


def colebrook(reynolds):
    """Darcy friction factor by a fixed point, which converges fast."""
    x = 8.0
    for _ in range(60):
        x = -2 * log10(ROUGHNESS / 3.7 + 2.51 * x / reynolds)
    return x**-2


def friction_k(flow):
    reynolds = 4 * max(abs(flow), 1e-3) / (pi * DUCT_M * MU)
    return colebrook(reynolds) * DUCT_LENGTH / DUCT_M


def oil_drop(angle, friction, flow):
    k = oil_k(angle) + (friction_k(flow) if friction else 0.0)
    return resistance(k, DUCT) * flow * abs(flow)


def cylinder_drop(law, flow):
    if law == "quadratic":
        return resistance(*CYLINDERS) * flow * abs(flow)
    return np.sign(flow) * 1500.0 * (abs(flow) / 1.2) ** 1.8


def cylinder_flow(law, drop):
    if law == "quadratic":
        return sqrt(drop / resistance(*CYLINDERS))
    return 1.2 * (drop / 1500.0) ** (1 / 1.8)


def nested(angle, friction, law):
    """Brackets inside brackets: flow in the oil branch, then the plenum, then the lower deck."""

    def branches(drop):
        oil = brentq(lambda w: oil_drop(angle, friction, w) - drop, 0.0, 5.0, xtol=1e-15)
        return cylinder_flow(law, drop), sqrt(drop / resistance(*LEAK)), oil

    def plenum(lower):
        def surplus(pressure):
            enters = sqrt((RAM - pressure) / resistance(*INLET))
            return enters - sum(branches(pressure - lower))

        return brentq(surplus, lower + 1e-9, RAM, xtol=1e-12)

    def surplus(lower):
        leaves = sqrt((lower - SINK) / resistance(*EXIT))
        return sum(branches(plenum(lower) - lower)) - leaves

    lower = brentq(surplus, SINK, RAM - 1e-6, xtol=1e-12)
    upper = plenum(lower)
    flows = branches(upper - lower)
    return upper, lower, sum(flows), *flows


def simultaneous(angle, friction, law):
    """Two pressures and four flows at once."""

    def equations(x):
        upper, lower = x[0] * 1000, x[1] * 1000
        total, cylinders, leak, oil = x[2:]
        drop = upper - lower
        return np.array(
            [
                (RAM - upper - resistance(*INLET) * total * abs(total)) / 1000,
                (lower - SINK - resistance(*EXIT) * total * abs(total)) / 1000,
                (drop - cylinder_drop(law, cylinders)) / 1000,
                (drop - resistance(*LEAK) * leak * abs(leak)) / 1000,
                (drop - oil_drop(angle, friction, oil)) / 1000,
                total - cylinders - leak - oil,
            ]
        )

    found = root(equations, [1.5, 0.2, 1.1, 0.9, 0.12, 0.08], tol=1e-14)
    assert np.max(np.abs(found.fun)) < 1e-11
    return found.x[0] * 1000, found.x[1] * 1000, *found.x[2:]


def epanet(angle, friction, law):
    """EPANET 2.2: losses as throttle valves, the power law as a headloss curve."""
    model = epanet_model()
    model.add_reservoir("ram", base_head=epanet_head(RAM))
    model.add_reservoir("sink", base_head=epanet_head(SINK))
    for name in ("plenum", "lower", "hose"):
        model.add_junction(name, elevation=0.0)

    def throttle(name, start, end, k, area):
        model.add_valve(name, start, end, 2 * sqrt(area / pi), "TCV", 0.0, k)

    throttle("inlet", "ram", "plenum", *INLET)
    throttle("leak", "plenum", "lower", *LEAK)
    throttle("exit", "lower", "sink", *EXIT)
    if law == "quadratic":
        throttle("cylinders", "plenum", "lower", *CYLINDERS)
    else:
        # Straight lines between the points: close ones where the flow can be.
        flows = [0.0, *np.linspace(0.8, 1.3, 26)]
        points = [(w / RHO, cylinder_drop(law, w) / (RHO * G)) for w in flows]
        model.add_curve("cylinders", "HEADLOSS", points)
        diameter = 2 * sqrt(CYLINDERS[1] / pi)
        model.add_valve("cylinders", "plenum", "lower", diameter, "GPV", 0.0, "cylinders")
    if friction:
        model.add_pipe("duct", "plenum", "hose", DUCT_LENGTH, DUCT_M, ROUGHNESS * DUCT_M)
        throttle("oil", "hose", "lower", oil_k(angle), DUCT)
    else:
        throttle("oil", "plenum", "lower", oil_k(angle), DUCT)
        model.remove_node("hose")

    pressure, flow = epanet_solved(model)
    return (
        pressure("plenum"),
        pressure("lower"),
        *(flow(name) for name in ("inlet", "cylinders", "leak", "oil")),
    )


def pipe_network(angle, friction, law):
    """pandapipes with a fluid of constant density; it knows no power law."""
    import pandapipes as pp

    assert law == "quadratic"
    net = pandapipes_net()
    ram, plenum, lower, sink = (pandapipes_node(net) for _ in range(4))
    pandapipes_boundary(net, ram, RAM)
    pandapipes_boundary(net, sink, SINK)

    def element(begin, end, k, area, length=1e-6, roughness=1e-9):
        return pp.create_pipe_from_parameters(
            net,
            begin,
            end,
            length_km=length / 1000,
            inner_diameter_mm=2000 * sqrt(area / pi),
            k_mm=roughness * 1000,
            loss_coefficient=k,
        )

    inlet = element(ram, plenum, *INLET)
    cylinders = element(plenum, lower, *CYLINDERS)
    leak = element(plenum, lower, *LEAK)
    element(lower, sink, *EXIT)
    if friction:
        oil = element(plenum, lower, oil_k(angle), DUCT, DUCT_LENGTH, ROUGHNESS * DUCT_M)
    else:
        oil = element(plenum, lower, oil_k(angle), DUCT)
    pressure, flow = pandapipes_solved(net)
    return (
        pressure(plenum),
        pressure(lower),
        *(flow(pipe) for pipe in (inlet, cylinders, leak, oil)),
    )


SOLVERS = {
    "scipy_nested": nested,
    "scipy_simultaneous": simultaneous,
    "epanet": epanet,
    "pandapipes": pipe_network,
}
VARIANTS = (
    (False, "quadratic", tuple(SOLVERS)),
    (True, "quadratic", tuple(SOLVERS)),
    (True, "power_1.8", ("scipy_nested", "epanet")),
)


def main():
    rows = []
    for angle in SHUTTER:
        for friction, law, solvers in VARIANTS:
            for solver in solvers:
                values = SOLVERS[solver](angle, friction, law)
                case = (angle, str(friction).lower(), law, solver)
                cells = (digits(v, 7) for v in values)
                rows.append((*case, *cells, "library", "computed"))
    write_table("network_crosscheck", COLUMNS, rows)


if __name__ == "__main__":
    main()
