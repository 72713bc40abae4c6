"""Drag of cooling air, counted by what enters a cowl, and the speed that it costs.

Pure Python. The momentum theorem on the stream tube of all air that enters: upstream each stream
carries V_s; what is left of its momentum in the flight direction is that of the jets. The product
charges each stream where it leaves instead; both agree only where mass balances and every stream is
counted once, so each case is made to balance by the flow of one inlet.
"""

import json
from math import cos, radians, sqrt

from output import folder

R = 8314.32 / 28.9644
CP = 3.5 * R


def nozzle(below_pa, total_pa, total_k):
    """Speed and mass flow per area of an isentropic nozzle, by the heat it turns into speed."""
    ratio = (total_pa - below_pa) / total_pa
    speed = sqrt(2 * CP * total_k * (1 - ratio ** (2 / 7)))
    density = (total_pa - below_pa) / (R * total_k * ratio ** (2 / 7))
    return speed, density * speed


def through_exit(case, opening):
    """Flow, and speed without loss, both negative inward."""
    stream, lower = case["stream"], case["lower"]
    inside, outside = lower["pressure_pa"], opening["outside_pa"]
    area = opening["discharge"] * opening["area_m2"]
    if inside >= outside:
        total = stream["pressure_pa"] + inside
        speed, flux = nozzle(inside - outside, total, lower["temperature_k"])
        return area * flux, speed
    total = stream["pressure_pa"] + outside
    speed, flux = nozzle(outside - inside, total, stream["temperature_k"])
    return -area * flux, -speed


def jet_area(opening):
    """Narrowest section of the jet: C_d = C_c C_v."""
    return opening["area_m2"] * min(1.0, opening["discharge"] / opening["velocity_coefficient"])


def cooler_jet(case):
    """Speed without loss in the cooler's own exit, by its flow; the sign is the flow's."""
    opening, cooler, stream = case["cooler"]["exit"], case["cooler"], case["stream"]
    density = (stream["pressure_pa"] + opening["outside_pa"]) / (R * cooler["temperature_k"])
    return cooler["flow_kg_s"] / (density * opening["discharge"] * opening["area_m2"])


def ledger(case):
    """All that crosses the cowl's surface: flow inward, and momentum kept by what leaves."""
    cooler = case["cooler"]
    crossing = [(inlet["flow_kg_s"], 0.0) for inlet in case["inlets"]]
    crossing.append((case["inflow_kg_s"], 0.0))
    crossing += [(-case["overboard_kg_s"], 0.0), (-case["cabin_kg_s"], 0.0)]
    for opening in case["exits"]:
        flow, speed = through_exit(case, opening)
        real = opening["velocity_coefficient"] * speed * cos(radians(opening["angle_deg"]))
        crossing.append((-flow, flow * real if flow > 0 else 0.0))
    if cooler["supply"] == "own inlet":
        crossing.append((cooler["flow_kg_s"], 0.0))
    if cooler["discharge"] == "own exit":
        flow = cooler["flow_kg_s"]
        real = cooler["exit"]["velocity_coefficient"] * cooler_jet(case)
        crossing.append((-flow, flow * real if flow > 0 else 0.0))
    return crossing


def drag(case):
    stream = case["stream"]
    density = stream["pressure_pa"] / (R * stream["temperature_k"])
    lossless = sqrt(stream["speed_m_s"] ** 2 + 2 * stream["propeller_rise_pa"] / density)
    crossing = ledger(case)
    balance = sum(flow for flow, _ in crossing) - case["induction_kg_s"]
    entering = sum(max(flow, 0.0) for flow, _ in crossing)
    assert abs(balance) < 1e-12 * entering, (case["name"], balance)
    # The engine pays for its own air.
    total = (entering - case["induction_kg_s"]) * lossless
    total -= sum(kept for _, kept in crossing)
    openings = list(case["exits"])
    if case["cooler"]["discharge"] == "own exit":
        openings.append(case["cooler"]["exit"])
    total -= sum(opening["outside_pa"] * jet_area(opening) for opening in openings)
    inlets = list(case["inlets"])
    if case["cooler"]["supply"] == "own inlet":
        cooler = case["cooler"]
        inlets.append({"area_m2": cooler["inlet_area_m2"], "flow_kg_s": cooler["flow_kg_s"]})
    for inlet in inlets:
        face = max(inlet["flow_kg_s"], 0.0) / (density * inlet["area_m2"])
        short = max(stream["speed_m_s"] - face, 0.0)
        total += case["spillage"] * 0.5 * density * inlet["area_m2"] * short**2
    return total + case["flap_drag_m2"] * 0.5 * density * stream["speed_m_s"] ** 2


def level_speed(speed, thrust, induced, extra):
    """Speed at which the same power carries `extra` more drag, by halving."""
    low, high = 0.5 * speed, 2.0 * speed

    def surplus(v):
        carried = (1 - induced) * thrust * (v / speed) ** 2 + induced * thrust * (speed / v) ** 2
        return (carried + extra) * v - thrust * speed

    for _ in range(200):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if surplus(middle) < 0 else (low, middle)
    return 0.5 * (low + high)


def speed_cost(case, drag_n):
    """What the drag costs at the rate of a small one, since parts are to add up."""
    speed, thrust, induced = case["stream"]["speed_m_s"], case["thrust_n"], case["induced_share"]
    small = 1e-4 * thrust
    slower = level_speed(speed, thrust, induced, small)
    faster = level_speed(speed, thrust, induced, -small)
    return drag_n * (faster - slower) / (2 * small)


# --- invented cowls ------------------------------------------------------------------------------


def opening_of(area_m2, outside_pa=-140.0, discharge=0.85, velocity=0.98, angle_deg=0.0):
    return {
        "area_m2": area_m2,
        "outside_pa": outside_pa,
        "discharge": discharge,
        "velocity_coefficient": velocity,
        "angle_deg": angle_deg,
    }


PLAIN_COOLER = {
    "supply": "upper deck",
    "discharge": "lower deck",
    "flow_kg_s": 0.12,
    "temperature_k": 345.0,
    "inlet_area_m2": 0.007,
    "exit": opening_of(0.01),
}


def cowl(name, lower_pa, exits, inlets=(0.5, None), **changes):
    """A case; the inlet without a flow closes the balance of mass."""
    case = {
        "name": name,
        "stream": {
            "pressure_pa": 84307.0,
            "temperature_k": 283.0,
            "speed_m_s": 62.0,
            "propeller_rise_pa": 180.0,
        },
        "lower": {"pressure_pa": lower_pa, "temperature_k": 372.0},
        "inlets": [{"area_m2": 0.016, "flow_kg_s": flow} for flow in inlets],
        "exits": exits,
        "cooler": PLAIN_COOLER,
        "overboard_kg_s": 0.015,
        "cabin_kg_s": 0.0,
        "inflow_kg_s": 0.02,
        "induction_kg_s": 0.08,
        "spillage": 0.2,
        "flap_drag_m2": 0.0,
        "thrust_n": 1100.0,
        "induced_share": 0.25,
    }
    for part, change in changes.items():
        case[part] = {**case[part], **change} if isinstance(change, dict) else change
    last = next(inlet for inlet in case["inlets"] if inlet["flow_kg_s"] is None)
    last["flow_kg_s"] = 0.0
    last["flow_kg_s"] = case["induction_kg_s"] - sum(flow for flow, _ in ledger(case))
    return case


def cases():
    own_exit = {"discharge": "own exit", "exit": opening_of(0.006, -260.0, 0.8, 0.97)}
    return [
        cowl("one exit", 520.0, [opening_of(0.033)]),
        cowl(
            "several exits",
            610.0,
            [
                opening_of(0.018, -75.0, 0.9, 1.0, 10.0),
                opening_of(0.007, -400.0, 0.7, 0.95, 60.0),
                opening_of(0.004, 190.0, 0.65, 0.9, 25.0),
            ],
        ),
        cowl("a jet without loss or contraction", 520.0, [opening_of(0.03, -140.0, 1.0, 1.0)]),
        cowl("more discharge than velocity", 520.0, [opening_of(0.03, 90.0, 1.0, 0.92)]),
        cowl("cooler with its own exit", 480.0, [opening_of(0.03)], cooler=own_exit),
        cowl(
            "cooler with its own inlet and exit",
            480.0,
            [opening_of(0.03)],
            cooler={**own_exit, "supply": "own inlet", "flow_kg_s": 0.15},
        ),
        cowl("cooler with its own inlet", 480.0, [opening_of(0.034)], cooler={"supply": "own inlet"}),
        cowl(
            "backward out of the cooler's own inlet",
            700.0,
            [opening_of(0.02)],
            cooler={"supply": "own inlet", "flow_kg_s": -0.09, "temperature_k": 372.0},
        ),
        cowl(
            "backward in by the cooler's own exit",
            480.0,
            [opening_of(0.033)],
            cooler={**own_exit, "flow_kg_s": -0.05},
        ),
        cowl(
            "backward right through the cooler",
            480.0,
            [opening_of(0.033)],
            cooler={**own_exit, "supply": "own inlet", "flow_kg_s": -0.06},
        ),
        cowl("cabin air", 500.0, [opening_of(0.031)], cabin_kg_s=0.055),
        cowl("open flap", 150.0, [opening_of(0.06, -290.0)], flap_drag_m2=0.0081),
        cowl("one exit backward", -60.0, [opening_of(0.047, -330.0), opening_of(0.008, 210.0, 0.8)]),
        cowl("leak out of the lower deck", 900.0, [opening_of(0.004)], inflow_kg_s=-0.62),
        cowl("air out of an inlet", 560.0, [opening_of(0.028)], inlets=(-0.11, None)),
        cowl(
            "everything at once, without the propeller",
            -20.0,
            [opening_of(0.035, -310.0, 0.8, 0.96, 20.0), opening_of(0.006, 240.0, 0.9)],
            inlets=(-0.04, None, 0.3),
            stream={"propeller_rise_pa": 0.0},
            cooler=own_exit,
            cabin_kg_s=0.03,
            inflow_kg_s=-0.05,
            flap_drag_m2=0.003,
            induced_share=0.4,
        ),
    ]


def rounded(value):
    return [rounded(v) for v in value] if isinstance(value, list) else float(f"{value:.10g}")


def main():
    results = []
    for case in cases():
        flows = [through_exit(case, opening) for opening in case["exits"]]
        drag_n = drag(case)
        expected = {
            "exit_kg_s": [flow for flow, _ in flows],
            "exit_m_s": [speed for _, speed in flows],
            "cooler_jet_m_s": cooler_jet(case),
            "drag_n": drag_n,
            "speed_cost_m_s": speed_cost(case, drag_n),
        }
        inputs = {key: value for key, value in case.items() if key != "name"}
        for inlet in inputs["inlets"]:
            inlet["flow_kg_s"] = float(f"{inlet['flow_kg_s']:.12g}")
        expected = {key: rounded(value) for key, value in expected.items()}
        results.append({"name": case["name"], "inputs": inputs, "expected": expected})
    text = json.dumps(results, indent=2, ensure_ascii=False)
    (folder() / "drag_cases.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
