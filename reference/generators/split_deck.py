"""The whole flow path with an upper deck in two halves, each over a bank of the cylinders.

As in full_path.py every unknown stands in one system of equations; the elements that are the same come
from there. A bank has half of the fins, heads and leaks; blast tubes, cabin hose and induction may leave
from one half alone. SI units, flows positive downstream and from the left half to the right.
"""

import json
from math import sqrt

import numpy as np
from scipy.optimize import root

from full_path import (
    CP,
    CRUISE,
    HOT,
    R,
    RHO_STD,
    Path,
    cooler_heat,
    cowl,
    delivered,
    fin_conductance,
    inlet,
    inlet_loss,
    jet,
    opening,
    orifice_drop,
    rounded,
    thermostat_share,
)
from output import folder

SIDES = ("left", "right")


class SplitPath:
    """Unknowns and equations of one case."""

    def __init__(self, case):
        self.case = case
        self.whole = Path(case)
        self.air = self.whole.air
        names = []
        # An inlet that feeds both halves is two of half its area.
        self.mouths = []
        for i, mouth in enumerate(case["inlets"]):
            sides = SIDES if mouth["side"] == "both" else (mouth["side"],)
            for side in sides:
                self.mouths.append((i, side, {**mouth, "area_m2": mouth["area_m2"] / len(sides)}))
                names.append(f"inlet{i}_{side}_kg_s")
        for side in SIDES:
            names += [f"fin_{side}_kg_s", f"upper_{side}_pa", f"rear_{side}_k", f"head_{side}_k"]
        names += ["across_kg_s", "lower_pa", "lower_k", "oil_k"]
        names += ["cooler_kg_s", "cooler_out_k", "cooler_share"]
        self.names = names
        self.scales = np.array([Path.scale(name) for name in names])

    def unknowns(self, x):
        return dict(zip(self.names, x * self.scales))

    def density(self, gauge_pa, temperature):
        return (self.air["p0"] + gauge_pa) / (R * temperature)

    def of_cooler(self, u):
        """The unknowns as the cooler's side sees them, in the names of one deck."""
        side = self.case["cooler"]["side"]
        return {
            "cooler_kg_s": u["cooler_kg_s"],
            "cooler_out_k": u["cooler_out_k"],
            "cooler_share": u["cooler_share"],
            "upper_pa": u[f"upper_{side}_pa"],
            "upper_k": self.air["total_k"],
            "rear_k": u[f"rear_{side}_k"],
            "lower_pa": u["lower_pa"],
            "lower_k": u["lower_k"],
            "oil_k": u["oil_k"],
        }

    def part(self, name, side):
        """The part of a hole, or of a draw, that belongs to a half."""
        place = self.case.get("draws", {}).get(name, "both")
        return {"both": 0.5, side: 1.0}.get(place, 0.0)

    def hole(self, name, side, drop, density):
        """Flow through a half's part of a hole, kg/s."""
        hole = self.case[name]
        speed = np.sign(drop) * sqrt(2 * abs(drop) / density)
        return self.part(name, side) * hole["discharge"] * hole["area_m2"] * density * speed

    def equations(self, x):
        case, air, u = self.case, self.air, self.unknowns(x)
        heads, oil, fins = case["heads"], case["oil"], case["fins"]
        total_k = air["total_k"]
        pressures, masses, energies = [], [], []
        cooler = self.of_cooler(u)
        entering_k = self.whole.cooler_in(cooler)
        into_lower, warmth, to_oil = 0.0, 0.0, 0.0

        for i, side, mouth in self.mouths:
            loss = inlet_loss(air, mouth, self.whole.heads[i], u[f"inlet{i}_{side}_kg_s"])
            pressures.append(self.whole.heads[i] - u[f"upper_{side}_pa"] - loss)

        for side in SIDES:
            flow, upper = u[f"fin_{side}_kg_s"], u[f"upper_{side}_pa"]
            drop = upper - u["lower_pa"]
            rear, head = u[f"rear_{side}_k"], u[f"head_{side}_k"]
            sigma = self.density(u["lower_pa"], rear) / RHO_STD
            # Half of the fins: as many as the whole has at twice the flow.
            used = fins["resistance"] * abs(2 * flow) ** fins["exponent"] / sigma
            pressures.append(drop - np.sign(flow) * used)
            given = 0.5 * fin_conductance(heads, 2 * flow) * (head - total_k)
            conducted = 0.5 * heads["oil_w_k"] * (head - u["oil_k"])
            burnt = 0.5 * heads["gas_w_k"] * (heads["gas_k"] - head)
            energies.append(flow * CP * (rear - total_k) - given)
            energies.append(burnt - given - conducted)
            to_oil += conducted

            density = self.density(upper, total_k)
            leaks = self.hole("seal", side, drop, density) + self.hole("blast", side, drop, density)
            outside = case["overboard"]["pressure_coefficient"] * air["dynamic_pa"]
            lost = self.hole("overboard", side, upper - outside, density)
            if "cabin" in case:
                lost += self.hole("cabin", side, upper, density)
            breathed = self.part("induction", side) * case["induction_kg_s"]
            taken = u["cooler_kg_s"] if side == case["cooler"]["side"] else 0.0
            across = u["across_kg_s"] if side == "left" else -u["across_kg_s"]
            entering = sum(u[f"inlet{i}_{s}_kg_s"] for i, s, _ in self.mouths if s == side)
            masses.append(entering - flow - leaks - lost - taken - across - breathed)
            into_lower += flow + leaks
            warmth += flow * CP * (rear - u["lower_k"]) + leaks * CP * (total_k - u["lower_k"])

        left, right = u["upper_left_pa"], u["upper_right_pa"]
        pressures.append(left - right - orifice_drop(case["across"], air["rho0"], u["across_kg_s"]))

        flow = u["cooler_kg_s"]
        pressures.append(cooler["upper_pa"] - u["lower_pa"] - self.whole.cooler_drop(cooler))
        taken = cooler_heat(case, flow, u["oil_k"], entering_k, u["cooler_share"])
        energies.append(flow * CP * (u["cooler_out_k"] - entering_k) - taken)
        valve_k = delivered(case, u["oil_k"], taken)
        masses.append(u["cooler_share"] - thermostat_share(oil["thermostat"], valve_k))
        into_lower += flow
        warmth += flow * CP * (u["cooler_out_k"] - u["lower_k"])
        # What a cylinder gave the cooler's air is taken from the stream behind the fins.
        warmth -= flow * CP * (entering_k - total_k)

        exits = sum(jet(air, exit, u["lower_pa"], u["lower_k"])[0] for exit in case["exits"])
        masses.append(into_lower - exits)
        sump = oil["sump_w_k"] * (u["oil_k"] - u["lower_k"])
        skin = case["lower_deck"]["skin_w_k"] * (u["lower_k"] - air["t0"])
        energies.append(warmth + case["lower_deck"]["exhaust_heat_w"] + sump - skin)
        energies.append(oil["friction_heat_w"] + to_oil - taken - sump)
        return np.concatenate(
            (np.array(pressures) / 1e3, np.array(masses), np.array(energies) / 1e4)
        )

    def start(self):
        """The network of one deck, with nothing across."""
        one = self.whole.unknowns(self.whole.solve())
        guess = {}
        for name in self.names:
            if name.startswith("inlet"):
                guess[name] = one["inlet0_kg_s"]
            else:
                plain = name.replace("_left", "").replace("_right", "")
                guess[name] = one.get(plain, 0.0) * (0.5 if plain == "fin_kg_s" else 1.0)
        return np.array([guess[name] for name in self.names]) / self.scales

    def solve(self):
        x = self.start()
        asked = self.case["across"]["area_m2"]
        # From a wide opening, which one deck nearly is, to the one that is asked for.
        for area in np.geomspace(max(0.1, asked), asked, 12):
            self.case["across"]["area_m2"] = float(area)
            for method in ("hybr", "lm", "hybr"):
                x = root(self.equations, x, method=method, tol=1e-14).x
            x = Path.polished(self, x)
        self.case["across"]["area_m2"] = asked
        assert np.max(np.abs(self.equations(x))) < 1e-11, self.case["name"]
        return x

    def expected(self):
        u = self.unknowns(self.solve())
        flows = [0.0] * len(self.case["inlets"])
        for i, side, _ in self.mouths:
            flows[i] += u[f"inlet{i}_{side}_kg_s"]
        sided = {
            f"{side}_{key}": u[f"{name}_{side}_{unit}"]
            for side in SIDES
            for key, name, unit in (
                ("upper_pa", "upper", "pa"),
                ("fin_kg_s", "fin", "kg_s"),
                ("head_k", "head", "k"),
            )
        }
        return {
            **sided,
            "inlet_kg_s": flows,
            "across_kg_s": u["across_kg_s"],
            "lower_pa": u["lower_pa"],
            "lower_k": u["lower_k"],
            "oil_k": u["oil_k"],
            "cooler_kg_s": u["cooler_kg_s"],
            "cooler_out_k": u["cooler_out_k"],
            "cooler_in_k": self.whole.cooler_in(self.of_cooler(u)),
        }


def split(name, across_m2, sides, cooler, air=(*HOT, 52.0), areas=(0.0165, 0.0165), load=0.97):
    """One case: `sides` of the inlets, and of the cooler."""
    mouths = [
        {**inlet(0.97, area, 0.8, (0.1, 1.5)), "side": side} for area, side in zip(areas, sides)
    ]
    made = cowl(name, 180, load, air, (mouths, [opening(0.036)]))
    made["across"] = {"discharge": 0.6, "area_m2": across_m2}
    made["cooler"]["side"] = cooler
    return made


def drawn(made, cabin_m2, **sides):
    """A case with a cabin hose, and with draws that leave from one half."""
    made["cabin"] = {"discharge": 0.6, "area_m2": cabin_m2}
    made["draws"] = sides
    return made


def cases():
    pair = ("left", "right")
    return [
        split("split plenum, cooler on the left", 1e-5, pair, "left"),
        split("a way across of 8 in²", 0.00516, pair, "left"),
        split("a way across of 30 in², cooler on the right", 0.0194, pair, "right"),
        split("a smaller inlet on the right", 0.004, pair, "left", areas=(0.0165, 0.011)),
        split("cruise", 0.004, pair, "right", (*CRUISE, 82.0), (0.014, 0.012), 0.7),
        split("one inlet for both", 0.003, ("both", "left"), "right", areas=(0.02, 0.008)),
        drawn(
            split("tubes and cabin hose on the left, induction on the right", 0.002, pair, "right"),
            0.00114,
            blast="left",
            cabin="left",
            induction="right",
        ),
    ]


def main():
    results = []
    for case in cases():
        expected = {key: rounded(value) for key, value in SplitPath(case).expected().items()}
        inputs = {key: value for key, value in case.items() if key != "name"}
        results.append({"name": case["name"], "inputs": inputs, "expected": expected})
    text = json.dumps(results, indent=2, ensure_ascii=False)
    (folder() / "split_deck_cases.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
