"""How long five programs take for the plain network of `network_crosscheck.py`, and the ratios.

Needs a Rust toolchain for the project's own time. Prints a table; writes nothing.
"""

import subprocess
import time
from pathlib import Path

import network_crosscheck as network

CASE = (30, False, "quadratic")
ROOT = Path(__file__).resolve().parents[2]


def micros(solve, rounds):
    solve(*CASE)
    start = time.perf_counter()
    for _ in range(rounds):
        solve(*CASE)
    return (time.perf_counter() - start) / rounds * 1e6


def own():
    command = ["cargo", "run", "-q", "--release", "-p", "coolpath-tests", "--bin", "network_time"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    time_us, upper, lower = (float(word) for word in run.stdout.split())
    expected = network.nested(*CASE)
    assert abs(upper - expected[0]) < 1e-3 and abs(lower - expected[1]) < 1e-3
    return time_us


def main():
    times = {
        "this project": own(),
        "scipy.optimize.root, all unknowns": micros(network.simultaneous, 200),
        "scipy.optimize.brentq, nested": micros(network.nested, 20),
        "EPANET by wntr, file included": micros(network.epanet, 5),
        "pandapipes, network built anew": micros(network.pipe_network, 3),
    }
    base = times["this project"]
    for name, value in times.items():
        print(f"{name:36} {value:12.2f} µs {value / base:12.0f} ×")


if __name__ == "__main__":
    main()
