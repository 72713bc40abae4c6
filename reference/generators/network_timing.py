"""How long six programs take for the plain network of `network_crosscheck.py`, and the ratios.

The project solves it as a cowl, by the solver that the product has for every cowl: heads and oil are balanced
with the air, though nothing is warm here. One of its times and that of a batch on whole arrays are of 12,000
networks that differ in shutter, inlet and exit; the others solve one network again and again. The fastest of
several turns counts. Needs a Rust toolchain for the project's own time. Prints a table; writes nothing.
"""

import subprocess
import sys
import time
from importlib.metadata import version
from pathlib import Path

import numpy as np

import network_crosscheck as network

CASE = (30, False, "quadratic")
MANY = 12_000
TURNS = 40
# Flow that is left over where a batch may stop, kg/s.
LEFT = 1e-13
# The project's air is slow, not incompressible: what that moves its pressures by, Pa. The batch's differ from
# the closed form by rounding.
COMPRESSED = 1e-4
ROUNDED = 1e-8
ROOT = Path(__file__).resolve().parents[2]


def micros(solve, rounds):
    solve()
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        solve()
        times.append(time.perf_counter() - start)
    return min(times) * 1e6


def own():
    """Time of one, time of many, what these leave over, and their pressures."""
    command = ["cargo", "run", "-q", "--release", "-p", "coolpath-tests", "--bin", "network_time"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    lines = [[float(word) for word in line.split()] for line in run.stdout.splitlines()]
    one, upper, lower = lines[0]
    expected = network.nested(*CASE)
    assert abs(upper - expected[0]) < 1e-3 and abs(lower - expected[1]) < 1e-3
    many, left = lines[1]
    return one, many, left, np.array(lines[2:])


def scattered():
    """Loss of the shutter, area of inlet and exit, as `network_time.rs` scatters them."""
    at = np.arange(MANY)
    shutter = 0.3 * (118.0 / 0.3) ** (at / (MANY - 1))
    inlet = 0.015 + 0.020 * np.mod(at * 0.61803398875, 1.0)
    exit = 0.025 + 0.030 * np.mod(at * 0.75487766625, 1.0)
    return shutter, inlet, exit


def conductances(shutter, inlet, exit):
    """W / √Δp of the inlet, between the decks and of the exit."""

    def of(k, area):
        return np.sqrt(2 * network.RHO / k) * area

    oil = of(network.oil_k(0) - network.SHUTTER[0] + shutter, network.DUCT)
    between = of(*network.CYLINDERS) + of(*network.LEAK) + oil
    return of(network.INLET[0], inlet), between, of(network.EXIT[0], exit)


def batch(*networks):
    """Newton on both pressures of all networks at once, halved where it does not come closer."""
    inlet, between, exit = conductances(*networks)
    ram, sink = network.RAM, network.SINK

    def balances(upper, lower):
        """What is left over of each deck, and the slopes of the three flows."""
        drops = (ram - upper, upper - lower, lower - sink)
        roots = [np.sqrt(np.abs(drop)) for drop in drops]
        flows = [c * np.copysign(r, d) for c, r, d in zip((inlet, between, exit), roots, drops)]
        slopes = [c / (2 * r) for c, r in zip((inlet, between, exit), roots)]
        return flows[0] - flows[1], flows[1] - flows[2], slopes

    def off(a, b):
        return np.maximum(np.abs(a), np.abs(b))

    upper = np.full(MANY, sink + 0.7 * (ram - sink))
    lower = np.full(MANY, sink + 0.25 * (ram - sink))
    above, below, (si, sb, se) = balances(upper, lower)
    for _ in range(60):
        if off(above, below).max() <= LEFT:
            return upper, lower
        # −(s_i + s_b) δu + s_b δl = −above;  s_b δu − (s_b + s_e) δl = −below
        determinant = (si + sb) * (sb + se) - sb * sb
        du = ((sb + se) * above + sb * below) / determinant
        dl = (sb * above + (si + sb) * below) / determinant
        share = np.ones(MANY)
        for _ in range(12):
            next_upper, next_lower = upper + share * du, lower + share * dl
            found = balances(next_upper, next_lower)
            worse = ~(off(found[0], found[1]) < off(above, below)) & (off(above, below) > LEFT)
            if not worse.any():
                break
            share[worse] *= 0.5
        upper, lower = next_upper, next_lower
        above, below, (si, sb, se) = found
    raise AssertionError("the batch did not balance")


def closed_form(inlet, between, exit):
    """Quadratic losses in a row: W² Σ 1/c² = the whole drop."""
    squared = (network.RAM - network.SINK) / (inlet**-2 + between**-2 + exit**-2)
    return network.RAM - squared / inlet**2, network.SINK + squared / exit**2


def main():
    one, many, left, pressures = own()
    networks = scattered()
    expected = np.array(closed_form(*conductances(*networks))).T
    by_batch = np.array(batch(*networks)).T
    assert np.max(np.abs(pressures - expected)) < COMPRESSED
    assert np.max(np.abs(by_batch - expected)) < ROUNDED
    rows = (
        ("this project, 12,000 that differ", many),
        ("this project, one again and again", one),
        ("numpy, 12,000 at once", micros(lambda: batch(*networks), TURNS) / MANY),
        ("scipy.optimize.root, all unknowns", micros(lambda: network.simultaneous(*CASE), 200)),
        ("scipy.optimize.brentq, nested", micros(lambda: network.nested(*CASE), 20)),
        ("EPANET by wntr, file included", micros(lambda: network.epanet(*CASE), 40)),
        ("pandapipes, network built anew", micros(lambda: network.pipe_network(*CASE), 15)),
    )
    names = ("numpy", "scipy", "wntr", "pandapipes")
    print("python", sys.version.split()[0], *(f"{name} {version(name)}" for name in names))
    print(f"largest flow left over by this project {left:.0e} kg/s, by numpy under {LEFT:.0e} kg/s")
    print("µs for each network, and its ratio to the first line")
    for name, value in rows:
        print(f"{name:36} {value:12.3f} {value / many:12.2f} ×")


if __name__ == "__main__":
    main()
