"""Four independent solutions of one network of two upper halves and a lower deck.

Constant density; every element is Δp = r W|W|. Free nodes are left, right and lower.
"""

from dataclasses import dataclass, field
from math import pi, sqrt

import numpy as np
from scipy.optimize import brentq, root

# Their density is for programs that want one; r holds each element's own.
from pipe_programs import (
    RHO,
    epanet_head,
    epanet_model,
    epanet_solved,
    pandapipes_boundary,
    pandapipes_net,
    pandapipes_node,
    pandapipes_solved,
)

FREE = ("left", "right", "lower")


@dataclass
class Network:
    """Pressures at the boundaries, Pa; elements (start, end, r); fixed draws from nodes, kg/s."""

    boundaries: dict
    elements: dict
    draws: dict = field(default_factory=dict)

    def free(self):
        ends = {end for start, stop, _ in self.elements.values() for end in (start, stop)}
        return [name for name in FREE if name in ends]

    def flows(self, pressures):
        known = {**self.boundaries, **pressures}
        return {name: passed(r, known[a] - known[b]) for name, (a, b, r) in self.elements.items()}

    def surplus(self, node, flows):
        into = sum(flows[name] for name, (_, end, _) in self.elements.items() if end == node)
        out = sum(flows[name] for name, (start, _, _) in self.elements.items() if start == node)
        return into - out - self.draws.get(node, 0.0)

    def throat(self, r):
        """Area, m², that has this r with a loss of one velocity head."""
        return 1 / sqrt(2 * RHO * r)


def passed(r, drop):
    return np.sign(drop) * sqrt(abs(drop) / r)


def nested(network):
    """Brackets inside brackets: the right half, then the left, then the lower deck."""
    low, high = min(network.boundaries.values()), max(network.boundaries.values())
    low -= 0.5 * (high - low)
    order = [name for name in ("lower", "left", "right") if name in network.free()]

    def settled(pressures, rest):
        if not rest:
            return pressures
        node, *inner = rest

        def surplus(pressure):
            trial = settled({**pressures, node: pressure}, inner)
            return network.surplus(node, network.flows(trial))

        found = brentq(surplus, low, high, xtol=1e-13, rtol=1e-15)
        return settled({**pressures, node: found}, inner)

    pressures = settled({}, order)
    return pressures, network.flows(pressures)


def simultaneous(network):
    """Every pressure and every flow at once."""
    nodes, names = network.free(), list(network.elements)
    sizes = np.array([min(1.0, sqrt(1000 / r)) for _, _, r in network.elements.values()])

    def parted(x):
        pressures = dict(zip(nodes, x * 1000))
        return pressures, dict(zip(names, x[len(nodes) :] * sizes))

    def equations(x):
        pressures, flows = parted(x)
        known = {**network.boundaries, **pressures}
        losses = [
            (known[a] - known[b] - r * flows[name] * abs(flows[name])) / 1000
            for name, (a, b, r) in network.elements.items()
        ]
        return np.array(losses + [network.surplus(node, flows) for node in nodes])

    start = [0.3 if node == "lower" else 1.2 for node in nodes]
    known = {**network.boundaries, **{node: 1000 * p for node, p in zip(nodes, start)}}
    for (a, b, r), size in zip(network.elements.values(), sizes):
        start.append((passed(r, known[a] - known[b]) or 0.1 * size) / size)
    for method in ("hybr", "lm", "hybr"):
        start = root(equations, start, method=method, tol=1e-14).x
    for _ in range(3):
        start = start + polish(equations, start)
    assert np.max(np.abs(equations(start))) < 1e-11
    return parted(start)


def polish(equations, x):
    """One step of Newton."""
    left = equations(x)
    slopes = np.empty((len(x), len(x)))
    for column in range(len(x)):
        step = np.zeros(len(x))
        step[column] = 1e-7 * max(1.0, abs(x[column]))
        slopes[:, column] = (equations(x + step) - equations(x - step)) / (2 * step[column])
    return np.linalg.solve(slopes, -left)


def epanet(network):
    """EPANET 2.2: elements as throttle valves, draws as demands."""
    model = epanet_model()
    for name, pressure in network.boundaries.items():
        model.add_reservoir(name, base_head=epanet_head(pressure))
    for node in network.free():
        model.add_junction(node, base_demand=network.draws.get(node, 0.0) / RHO, elevation=0.0)
    for name, (start, end, r) in network.elements.items():
        diameter = 2 * sqrt(network.throat(r) / pi)
        model.add_valve(name, start, end, diameter, "TCV", 0.0, 1.0)
    pressure, flow = epanet_solved(model)
    return (
        {node: pressure(node) for node in network.free()},
        {name: flow(name) for name in network.elements},
    )


def pipe_network(network):
    """pandapipes with a fluid of constant density: elements as pipes without length."""
    import pandapipes as pp

    net = pandapipes_net()
    places = {name: pandapipes_node(net) for name in (*network.boundaries, *network.free())}
    for name, pressure in network.boundaries.items():
        pandapipes_boundary(net, places[name], pressure)
    for node, draw in network.draws.items():
        pp.create_sink(net, places[node], mdot_kg_per_s=draw)
    pipes = {
        name: pp.create_pipe_from_parameters(
            net,
            places[start],
            places[end],
            length_km=1e-9,
            inner_diameter_mm=2000 * sqrt(network.throat(r) / pi),
            k_mm=1e-6,
            loss_coefficient=1.0,
        )
        for name, (start, end, r) in network.elements.items()
    }
    pressure, flow = pandapipes_solved(net)
    return (
        {node: pressure(places[node]) for node in network.free()},
        {name: flow(pipe) for name, pipe in pipes.items()},
    )


SOLVERS = {
    "scipy_nested": nested,
    "scipy_simultaneous": simultaneous,
    "epanet": epanet,
    "pandapipes": pipe_network,
}
