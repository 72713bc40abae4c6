"""An upper deck in two halves with an opening between them, solved by four independent programs.

Incompressible: ram ── inlets ── left │ opening │ right ── banks, leaks, oil branch ── lower ── exit.
Two lists. The plain one has one density throughout. The frozen one takes the heated cowls of
`split_deck.py`: each element keeps the resistance that its own equation has in the balanced state
(densities, powers and jets included), and pressures and flows are found anew.
"""

from math import pi

from full_path import RHO_STD, inlet_loss, jet
from network_solvers import RHO, SOLVERS, Network
from output import digits, write_table
from split_deck import SIDES, SplitPath, cases

RAM = 0.5 * RHO * 60.0**2  # Pa
SINK = -0.10 * RAM
OUTSIDE = -0.20 * RAM
INLET_K = 0.35
BANK = (3.0, 0.015)  # K, m²
LEAK = (1 / 0.61**2, 0.002)
OVERBOARD = (1 / 0.6**2, 0.0003)
EXIT = (1.0, 0.040)
OIL = (0.6 + 2 * 0.25 + 3.91 + 1.0 + 4.0, pi / 4 * 0.1016**2)
ACROSS_DISCHARGE = 0.6
ONE_DECK = ""

FOUND = (
    "left_pa",
    "right_pa",
    "lower_pa",
    "inlet_left_kg_s",
    "inlet_right_kg_s",
    "bank_left_kg_s",
    "bank_right_kg_s",
    "leak_left_kg_s",
    "leak_right_kg_s",
    "oil_kg_s",
    "exit_kg_s",
    "across_kg_s",
    "tag",
    "seen",
)
PLAIN = ("inlet_left_m2", "inlet_right_m2", "ram_right_share", "oil_from", "across_m2")

# Inlets, m²; share of the ram at the right; the half that feeds the oil branch; openings, m².
# Air crosses to the right in the first group and to the left in the others.
GROUPS = (
    ((0.015, 0.010), 1.0, "right", (1e-7, 1e-5, 1e-3, 0.004, 0.02, 0.1, 10.0, ONE_DECK)),
    ((0.010, 0.015), 1.0, "left", (1e-5, 0.004, 0.1, ONE_DECK)),
    ((0.0125, 0.0125), 0.9, "right", (0.001, 0.02)),
    ((0.006, 0.018), 1.0, "left", (0.002, 0.02)),
)


def resistance(k, area):
    """Δp = K / (2 ρ A²) W²"""
    return k / (2 * RHO * area**2)


def plain(inlets, ram_right, oil_from, across):
    boundaries = {"ram_left": RAM, "ram_right": ram_right * RAM, "sink": SINK, "outside": OUTSIDE}
    elements = {}
    for side, area in zip(SIDES, inlets):
        elements[f"inlet_{side}"] = (f"ram_{side}", side, resistance(INLET_K, area))
        elements[f"bank_{side}"] = (side, "lower", resistance(*BANK))
        elements[f"leak_{side}"] = (side, "lower", resistance(*LEAK))
        elements[f"overboard_{side}"] = (side, "outside", resistance(*OVERBOARD))
    elements["oil"] = (oil_from, "lower", resistance(*OIL))
    elements["exit"] = ("lower", "sink", resistance(*EXIT))
    if across == ONE_DECK:
        joined = {"right": "left"}
        elements = {
            name: (joined.get(start, start), joined.get(end, end), r)
            for name, (start, end, r) in elements.items()
        }
    else:
        r = resistance(1 / ACROSS_DISCHARGE**2, across)
        elements["across"] = ("left", "right", r)
    return Network(boundaries, elements)


def frozen(case):
    """The network of a heated cowl, its resistances as in the balanced state."""
    model = SplitPath(case)
    u = model.unknowns(model.solve())
    air, whole = model.air, model.whole
    boundaries = {"outside": case["overboard"]["pressure_coefficient"] * air["dynamic_pa"]}
    if "cabin" in case:
        boundaries["ambient"] = 0.0
    elements, draws = {}, {}
    density0 = air["rho0"]

    def law(drop, flow):
        return drop / (flow * abs(flow))

    for i, side, mouth in model.mouths:
        flow = u[f"inlet{i}_{side}_kg_s"]
        boundaries[f"ram{i}"] = whole.heads[i]
        loss = inlet_loss(air, mouth, whole.heads[i], flow)
        elements[f"inlet{i}_{side}"] = (f"ram{i}", side, law(loss, flow))
    for side in SIDES:
        flow, upper = u[f"fin_{side}_kg_s"], u[f"upper_{side}_pa"]
        sigma = model.density(u["lower_pa"], u[f"rear_{side}_k"]) / RHO_STD
        used = case["fins"]["resistance"] * (2 * flow) ** case["fins"]["exponent"] / sigma
        elements[f"bank_{side}"] = (side, "lower", law(used, flow))
        density = model.density(upper, air["total_k"])
        ends = {"seal": "lower", "blast": "lower", "overboard": "outside", "cabin": "ambient"}
        for name, end in ends.items():
            if name in case and model.part(name, side) > 0:
                hole = case[name]
                area = model.part(name, side) * hole["discharge"] * hole["area_m2"]
                elements[f"{name}_{side}"] = (side, end, 1 / (2 * density * area**2))
        draws[side] = model.part("induction", side) * case["induction_kg_s"]
    across = case["across"]["discharge"] * case["across"]["area_m2"]
    elements["across"] = ("left", "right", 1 / (2 * density0 * across**2))
    flow = u["cooler_kg_s"]
    drop = whole.cooler_drop(model.of_cooler(u))
    elements["oil"] = (case["cooler"]["side"], "lower", law(drop, flow))
    for i, exit in enumerate(case["exits"]):
        flow = jet(air, exit, u["lower_pa"], u["lower_k"])[0]
        outside = exit["pressure_coefficient"] * air["dynamic_pa"]
        boundaries[f"sink{i}"] = outside
        elements[f"exit{i}"] = ("lower", f"sink{i}", law(u["lower_pa"] - outside, flow))
    return Network(boundaries, elements, draws)


def summed(flows, *parts):
    """Flow of every element whose name begins and ends so."""
    return sum(
        flow
        for name, flow in flows.items()
        if any(name.startswith(start) and name.endswith(end) for start, end in parts)
    )


def figures(pressures, flows):
    # One deck is two halves alike, and nothing is known of what crosses.
    sides = [pressures["left"], pressures.get("right", pressures["left"]), pressures["lower"]]
    inlets = [summed(flows, ("inlet", side)) for side in SIDES]
    banks = [flows[f"bank_{side}"] for side in SIDES]
    leaks = [summed(flows, ("leak", side), ("seal", side), ("blast", side)) for side in SIDES]
    through = [flows["oil"], summed(flows, ("exit", ""))]
    cells = [digits(value, 8) for value in (*sides, *inlets, *banks, *leaks, *through)]
    across = digits(flows["across"], 8) if "across" in flows else ""
    return (*cells, across, "library", "computed")


def main():
    rows = []
    for inlets, ram_right, oil_from, openings in GROUPS:
        for across in openings:
            network = plain(inlets, ram_right, oil_from, across)
            for solver, solve in SOLVERS.items():
                found = figures(*solve(network))
                rows.append((*inlets, ram_right, oil_from, across, solver, *found))
    write_table("network_halves", (*PLAIN, "solver", *FOUND), rows)
    rows = []
    for case in cases():
        network = frozen(case)
        for solver, solve in SOLVERS.items():
            rows.append((case["name"], solver, *figures(*solve(network))))
    write_table("network_frozen", ("case", "solver", *FOUND), rows)


if __name__ == "__main__":
    main()
