"""The whole flow path with heads and oil, solved all at once.

Every flow, both deck pressures and every temperature are unknowns of one system of equations, so
that no loop inside another one can hide a mistake. Pressures are gauge to the free stream, flows
are positive downstream, units are SI.
"""

import json
from math import cos, pi, radians, sqrt

import numpy as np
from scipy.optimize import brentq, root
from scipy.special import gammainc

from output import folder

R = 8314.32 / 28.9644
CP = 3.5 * R
RHO_STD = 101325.0 / (R * 288.15)
INLET_OUTFLOW_K = 1.5


# --- free stream ---------------------------------------------------------------------------------


def free_stream(case):
    """What the outside air and the propeller do before the inlets."""
    p0 = case["free_stream"]["pressure_pa"]
    t0 = case["free_stream"]["temperature_k"]
    v0 = case["free_stream"]["speed_m_s"]
    rho0 = p0 / (R * t0)
    mach2 = v0**2 / (1.4 * R * t0)
    prop = case["propeller"]
    shaft = prop["efficiency"] * prop["power_w"]
    area = prop["disc_area_m2"]

    # 2 ρ A v (V + v)² = η P
    def surplus(v):
        return 2 * rho0 * area * v * (v0 + v) ** 2 - shaft

    induced = brentq(surplus, 0.0, 200.0, xtol=1e-14, rtol=1e-15) if shaft > 0 else 0.0
    rise = 2 * rho0 * induced * (v0 + induced)
    return {
        "p0": p0,
        "t0": t0,
        "v0": v0,
        "rho0": rho0,
        "total_k": t0 * (1 + 0.2 * mach2),
        "impact_pa": p0 * ((1 + 0.2 * mach2) ** 3.5 - 1),
        "dynamic_pa": 0.5 * rho0 * v0**2,
        "propeller_rise_pa": rise,
        "stream_m_s": sqrt(v0**2 + 2 * prop["inlet_share"] * rise / rho0),
    }


def ram(air, case, inlet):
    share = case["propeller"]["inlet_share"]
    return inlet["ram_share"] * air["impact_pa"] + share * air["propeller_rise_pa"]


# --- elements: what each flow asks of the pressures ----------------------------------------------


def inlet_loss(air, inlet, head, flow):
    """Total pressure lost between free stream and upper deck."""
    v1 = flow / (air["rho0"] * inlet["area_m2"])
    approach = sqrt(2 * max(head, 0.0) / air["rho0"])
    lip = inlet["lip_k"] * max(0.0, v1 - approach) ** 2
    lost = 0.5 * air["rho0"] * (lip + inlet["downstream_k"] * v1**2)
    return lost + askew_loss(air["rho0"], inlet.get("met"), approach, v1)


def askew_loss(density, met, approach, v1):
    """What a stream at an angle loses behind the windward lip.

    A sharp lip takes no axial force: what enters at rest with the momentum of both, less each one's own,
    is lost as the square of the vector between the two speeds. Only what the lip does not turn counts: the
    angle up to which the flow stays on it is taken off the chord, on the unit circle, of the angle itself.
    """
    if met is None or v1 <= 0.0 or approach <= 0.0:
        return 0.0
    turned = 1 - v1 / approach + met["nose"] * sqrt(2 * pi * met["radius_over_height"])
    kept = max(0.0, turned / met["crossflow"])
    if kept >= 2.0:
        return 0.0
    # Angles on the unit circle: a chord is the distance between two of its points.
    chord = abs(np.exp(1j * radians(met["angle_deg"])) - 1)
    if chord <= kept:
        return 0.0
    # Momentum: ½ρ |V⃗₁ − V⃗ₐ|² less ½ρ (V₁ − Vₐ)², for the angle whose chord is left.
    left = 2 * np.arcsin((chord - kept) / 2)
    vector = v1**2 + approach**2 - 2 * v1 * approach * cos(left)
    return met["factor"] * 0.5 * density * (vector - (v1 - approach) ** 2)


def orifice_drop(hole, density, flow):
    """Δp = W |W| / (2 ρ (C_d A)²)"""
    return flow * abs(flow) / (2 * density * (hole["discharge"] * hole["area_m2"]) ** 2)


def jet(air, opening, lower_pa, lower_k):
    """Flow and speed of an isentropic nozzle from the lower deck."""
    outside = air["p0"] + opening["pressure_coefficient"] * air["dynamic_pa"]
    inside = air["p0"] + lower_pa
    if inside <= outside:
        # Smooth enough for a solver to walk back from; no solution is accepted here.
        speed = -sqrt(2 * (outside - inside) / air["rho0"])
        return opening["discharge"] * opening["area_m2"] * air["rho0"] * speed, speed
    t5 = lower_k * (outside / inside) ** (2 / 7)
    speed = sqrt(2 * CP * (lower_k - t5))
    return opening["discharge"] * opening["area_m2"] * outside / (R * t5) * speed, speed


def fin_conductance(heads, flow):
    """Heat per kelvin between head and entering air."""
    flow = abs(flow)
    reference = heads["reference_flow_kg_s"]
    n_r = -np.log1p(-heads["reference_fin_w_k"] / (reference * CP))
    slope = 1 - 0.4 * np.expm1(n_r) / n_r
    n = n_r * (flow / reference) ** (slope - 1)
    return flow * CP * -np.expm1(-n)


def thermostat_share(thermostat, valve_k):
    span = thermostat["full_k"] - thermostat["open_k"]
    lift = min(max((valve_k - thermostat["open_k"]) / span, 0.0), 1.0)
    return thermostat["leak"] + (1 - thermostat["leak"]) * lift


def delivered(case, oil_k, cooler_w):
    """Oil behind the cooler, mixed with what went round it."""
    oil = case["oil"]
    return oil_k - cooler_w / (oil["flow_kg_s"] * oil["heat_capacity_j_kg_k"])


def crossflow_heat(ua, air_w_k, oil_w_k, difference):
    """Both sides unmixed: the double series, with its inner sums as incomplete gamma functions.

    P(n + 1, x) = 1 − e^−x Σ xᵐ/m!, m = 0 … n
    """
    a, b = ua / air_w_k, ua / oil_w_k
    last = int(min(a, b) + 12 * sqrt(min(a, b)) + 60)
    n = np.arange(1, last + 1)
    series = np.sum(gammainc(n, a) * gammainc(n, b))
    return difference * series * air_w_k * oil_w_k / ua


def cooler_heat(case, flow, oil_k, air_k, share):
    cooler, oil = case["cooler"], case["oil"]
    if cooler["cores"] == "two":
        return pair_heat(case, flow, oil_k, air_k, share)
    return core_heat(case, flow, share * oil["flow_kg_s"], oil_k, air_k)


def pair_heat(case, flow, oil_k, air_k, share):
    """Two cores, each stream shared between them or passing one after the other; hot oil comes to the
    rear core first. Unknown are the heats of both: what enters each follows from the other."""
    cooler, oil = case["cooler"], case["oil"]
    air, through = flow, share * oil["flow_kg_s"]
    if cooler["air_shared"]:
        air /= 2
    if cooler["oil_shared"]:
        through /= 2
    per_kelvin = core_heat(case, air, through, 1.0, 0.0)
    air_w_k, oil_w_k = air * CP, through * oil["heat_capacity_j_kg_k"]
    # front = h (T_oil,front − T_air);  rear = h (T_oil − T_air,rear)
    matrix = np.eye(2)
    if not cooler["oil_shared"]:
        matrix[0, 1] = per_kelvin / oil_w_k
    if not cooler["air_shared"]:
        matrix[1, 0] = per_kelvin / air_w_k
    both = per_kelvin * (oil_k - air_k) * np.ones(2)
    return float(np.sum(np.linalg.solve(matrix, both)))


def core_heat(case, flow, through, oil_k, air_k):
    cooler, oil = case["cooler"], case["oil"]
    share = 1 - cooler["plate_share"]
    resistance = (flow / (share * cooler["rated_air_kg_s"])) ** -0.5
    resistance += (through / cooler["rated_oil_kg_s"]) ** -0.4
    ua = share * cooler["ua_w_k"] / (0.5 * resistance)
    return crossflow_heat(
        ua, flow * CP, through * oil["heat_capacity_j_kg_k"], oil_k - air_k
    )


# --- the system ----------------------------------------------------------------------------------


class Path:
    """Unknowns and equations of one case."""

    SCALES = {"_kg_s": 1.0, "_pa": 1000.0, "_k": 300.0, "_share": 1.0}

    def __init__(self, case):
        self.case = case
        self.air = free_stream(case)
        self.heads = [ram(self.air, case, inlet) for inlet in case["inlets"]]
        names = [f"inlet{i}_kg_s" for i in range(len(case["inlets"]))]
        names += [f"exit{i}_kg_s" for i in range(len(case["exits"]))]
        names += ["fin_kg_s"]
        for hole in ("seal", "blast", "overboard", "inflow"):
            if case[hole]["area_m2"] > 0:
                names.append(f"{hole}_kg_s")
        self.cooled = case["cooler"]["duct_area_m2"] > 0
        if self.cooled:
            names += ["cooler_kg_s", "cooler_out_k", "cooler_share"]
        names += ["upper_pa", "lower_pa", "upper_k", "rear_k", "lower_k", "head_k", "oil_k"]
        self.names = names
        self.scales = np.array([self.scale(name) for name in names])

    @classmethod
    def scale(cls, name):
        return next(size for unit, size in cls.SCALES.items() if name.endswith(unit))

    def unknowns(self, x):
        values = dict.fromkeys(
            ("seal_kg_s", "blast_kg_s", "overboard_kg_s", "inflow_kg_s", "cooler_kg_s"), 0.0
        )
        values.update(zip(self.names, x * self.scales))
        return values

    def density(self, gauge_pa, temperature):
        return (self.air["p0"] + gauge_pa) / (R * temperature)

    def cooler_in(self, u):
        if u["cooler_kg_s"] >= 0:
            return u["upper_k"] + self.case["cooler"]["preheat_share"] * (
                u["rear_k"] - u["upper_k"]
            )
        return u["lower_k"]

    def streams(self, u):
        """(flow, temperature) of everything that enters each deck."""
        air, upper, lower = self.air, [], []
        for i in range(len(self.case["inlets"])):
            if u[f"inlet{i}_kg_s"] > 0:
                upper.append((u[f"inlet{i}_kg_s"], air["total_k"]))
        if u["inflow_kg_s"] > 0:
            lower.append((u["inflow_kg_s"], air["total_k"]))
        if u["fin_kg_s"] >= 0:
            lower.append((u["fin_kg_s"], u["rear_k"]))
        else:
            upper.append((-u["fin_kg_s"], u["rear_k"]))
        for name in ("seal_kg_s", "blast_kg_s"):
            if u[name] >= 0:
                lower.append((u[name], u["upper_k"]))
            else:
                upper.append((-u[name], u["lower_k"]))
        if self.cooled:
            deck = lower if u["cooler_kg_s"] >= 0 else upper
            deck.append((abs(u["cooler_kg_s"]), u["cooler_out_k"]))
            if u["cooler_kg_s"] > 0:
                # The preheat is taken from the stream behind the fins: air in, the same air back.
                share = u["cooler_kg_s"]
                lower.append((share, u["upper_k"]))
                lower.append((-share, self.cooler_in(u)))
        return upper, lower

    def heats(self, u):
        case = self.case
        before = u["upper_k"] if u["fin_kg_s"] >= 0 else u["lower_k"]
        heads, oil = case["heads"], case["oil"]
        heat = {
            "fin": fin_conductance(heads, u["fin_kg_s"]) * (u["head_k"] - before),
            "gas": heads["gas_w_k"] * (heads["gas_k"] - u["head_k"]),
            "head_to_oil": heads["oil_w_k"] * (u["head_k"] - u["oil_k"]),
            "sump": oil["sump_w_k"] * (u["oil_k"] - u["lower_k"]),
            "skin": case["lower_deck"]["skin_w_k"] * (u["lower_k"] - self.air["t0"]),
            "cooler": 0.0,
        }
        if self.cooled:
            heat["cooler"] = cooler_heat(
                case, abs(u["cooler_kg_s"]), u["oil_k"], self.cooler_in(u), u["cooler_share"]
            )
        return heat, before

    def equations(self, x):
        case, air, u = self.case, self.air, self.unknowns(x)
        drop = u["upper_pa"] - u["lower_pa"]
        heat, before = self.heats(u)
        pressures, masses, energies = [], [], []

        for i, inlet in enumerate(case["inlets"]):
            flow, head = u[f"inlet{i}_kg_s"], self.heads[i]
            if flow >= 0:
                loss = inlet_loss(air, inlet, head, flow)
            else:
                speed = flow / (self.density(u["upper_pa"], u["upper_k"]) * inlet["area_m2"])
                loss = -INLET_OUTFLOW_K * 0.5 * self.density(u["upper_pa"], u["upper_k"]) * speed**2
            pressures.append(head - u["upper_pa"] - loss)

        for i, opening in enumerate(case["exits"]):
            if opening["stacks_m2"] > 0:
                pressures.append(self.tube(u, i, opening)[0])
                continue
            masses.append(u[f"exit{i}_kg_s"] - jet(air, opening, u["lower_pa"], u["lower_k"])[0])

        # Δp = C Wⁿ / σ, σ of the density behind the fins
        fins, flow = case["fins"], u["fin_kg_s"]
        behind = u["lower_pa"] if flow >= 0 else u["upper_pa"]
        sigma = self.density(behind, u["rear_k"]) / RHO_STD
        used = fins["resistance"] * abs(flow) ** fins["exponent"] / sigma
        pressures.append(drop - np.sign(flow) * used)

        for name in ("seal", "blast"):
            if case[name]["area_m2"] > 0:
                flow = u[f"{name}_kg_s"]
                deck = "upper" if flow >= 0 else "lower"
                density = self.density(u[f"{deck}_pa"], u[f"{deck}_k"])
                pressures.append(drop - orifice_drop(case[name], density, flow))
        if case["overboard"]["area_m2"] > 0:
            outside = case["overboard"]["pressure_coefficient"] * air["dynamic_pa"]
            density = self.density(u["upper_pa"], u["upper_k"])
            pressures.append(
                u["upper_pa"]
                - outside
                - orifice_drop(case["overboard"], density, u["overboard_kg_s"])
            )
        if case["inflow"]["area_m2"] > 0:
            outside = case["inflow"]["impact_share"] * air["impact_pa"]
            flow = u["inflow_kg_s"]
            inward = self.density(outside, air["total_k"])
            density = inward if flow >= 0 else self.density(u["lower_pa"], u["lower_k"])
            pressures.append(
                outside
                - u["lower_pa"]
                - orifice_drop(case["inflow"], density, flow)
            )

        if self.cooled:
            pressures.append(drop - self.cooler_drop(u))
            passing = abs(u["cooler_kg_s"]) * CP
            energies.append(passing * (u["cooler_out_k"] - self.cooler_in(u)) - heat["cooler"])
            # The valve senses the oil it delivers.
            valve_k = delivered(case, u["oil_k"], heat["cooler"])
            masses.append(u["cooler_share"] - thermostat_share(case["oil"]["thermostat"], valve_k))

        inlets = sum(u[f"inlet{i}_kg_s"] for i in range(len(case["inlets"])))
        across = sum(u[f"{n}_kg_s"] for n in ("fin", "seal", "blast", "cooler"))
        exits = sum(u[f"exit{i}_kg_s"] for i in range(len(case["exits"])))
        masses.append(inlets - across - u["overboard_kg_s"] - case["induction_kg_s"])
        masses.append(
            across + u["inflow_kg_s"] - exits - case.get("lower_induction_kg_s", 0.0)
        )

        upper, lower = self.streams(u)
        energies.append(sum(w * CP * (t - u["upper_k"]) for w, t in upper))
        energies.append(
            sum(w * CP * (t - u["lower_k"]) for w, t in lower)
            + case["lower_deck"]["exhaust_heat_w"]
            + heat["sump"]
            - heat["skin"]
        )
        energies.append(abs(u["fin_kg_s"]) * CP * (u["rear_k"] - before) - heat["fin"])
        energies.append(heat["gas"] - heat["fin"] - heat["head_to_oil"])
        energies.append(
            case["oil"]["friction_heat_w"] + heat["head_to_oil"] - heat["cooler"] - heat["sump"]
        )
        return np.concatenate(
            (np.array(pressures) / 1e3, np.array(masses), np.array(energies) / 1e4)
        )

    def tube(self, u, i, opening):
        """Momentum left over in an augmentor's tube, Pa, and what its jet has over the exhaust, N."""
        air, drawn = self.air, u[f"exit{i}_kg_s"]
        tube = opening["area_m2"] + opening["stacks_m2"]
        density = self.density(u["lower_pa"], u["lower_k"])
        entering = drawn / (density * opening["area_m2"])
        mouth = u["lower_pa"] - 0.5 * density * (entering / opening["discharge"]) ** 2
        gas_density = air["p0"] / (R * opening["gas_k"])
        gas_speed = opening["gas_kg_s"] / (gas_density * opening["stacks_m2"])
        gas_push = opening["pulses"] * opening["gas_kg_s"] * gas_speed
        mass = drawn + opening["gas_kg_s"]
        mixed_density = mass / (drawn / density + opening["gas_kg_s"] / gas_density)
        leaving = mass / (mixed_density * tube)
        outside = opening["pressure_coefficient"] * air["dynamic_pa"]
        wall = opening["wall_loss"] * mixed_density * leaving**2
        pushes = (gas_push + drawn * entering - mass * leaving) / tube
        return mouth + pushes - outside - wall, mass * leaving - gas_push

    def cooler_drop(self, u):
        """Duct and core, with the sign of the flow."""
        cooler, flow = self.case["cooler"], u["cooler_kg_s"]
        source, sink = ("upper_pa", "lower_pa") if flow >= 0 else ("lower_pa", "upper_pa")
        entering = self.density(u[source], self.cooler_in(u))
        leaving = self.density(u[sink], u["cooler_out_k"])
        speed = abs(flow) / (entering * cooler["duct_area_m2"])
        duct = cooler["duct_k"] * 0.5 * entering * speed**2
        # Mean specific volume of the air before and behind the core.
        volume = 0.5 * (RHO_STD / entering + RHO_STD / leaving)
        passing = abs(flow)
        if cooler["cores"] == "two" and cooler["air_shared"]:
            passing /= 2
        # What is open is a core of its own, with the flux of the whole one at the same drop.
        passing /= 1 - cooler["plate_share"]
        core = cooler["core_resistance"] * passing ** cooler["core_exponent"] * volume
        if cooler["cores"] == "two" and not cooler["air_shared"]:
            core *= 2
        # Out through the gap behind the core: the dynamic pressure of its jet is lost. What is behind
        # the core is the lower deck, whichever way the air goes.
        behind = 0.0
        if cooler["gap_m2"] > 0:
            jet_m_s = abs(flow) / (leaving * cooler["gap_discharge"] * cooler["gap_m2"])
            behind = 0.5 * leaving * jet_m_s**2
        # A plate: into its opening, K = ½ (1 − a) of the air before the core; from the core behind the
        # opening over the whole face, K = (1 − a)² of the air behind it; both on the speed in the opening.
        covered = cooler["plate_share"]
        opened = (1 - covered) * cooler["face_m2"]
        plate = 0.5 * covered * 0.5 * (flow / opened) ** 2 / entering
        plate += covered**2 * 0.5 * (flow / opened) ** 2 / leaving
        return np.sign(flow) * (duct + core + behind + plate)

    # --- solution ---

    def start(self, upper_share, lower_share, reverse):
        """A guess from deck pressures as shares of the ram pressure."""
        head = max(self.heads + [1.0])
        sign = -1.0 if reverse else 1.0
        guess = {
            "upper_pa": upper_share * head,
            "lower_pa": lower_share * head,
            "upper_k": self.air["total_k"] + (60.0 if reverse else 0.0),
            "rear_k": self.air["total_k"] + 60.0,
            "lower_k": self.air["total_k"] + (5.0 if reverse else 60.0),
            "head_k": 480.0,
            "oil_k": 370.0,
            "cooler_out_k": self.air["total_k"] + 30.0,
            "cooler_share": 1.0,
            "fin_kg_s": sign * 0.9,
            "seal_kg_s": sign * 0.1,
            "blast_kg_s": sign * 0.02,
            "cooler_kg_s": sign * 0.05,
            "overboard_kg_s": 0.03,
            "inflow_kg_s": 0.5 if reverse else 0.05,
        }
        for kind in ("inlet", "exit"):
            count = len(self.case[f"{kind}s"])
            for i in range(count):
                guess[f"{kind}{i}_kg_s"] = 1.0 / count
        return np.array([guess[n] for n in self.names]) / self.scales

    def solve(self):
        solutions = []
        for reverse in (False, True):
            for upper_share, lower_share in ((0.8, 0.3), (0.7, 0.5), (0.9, 0.1), (0.5, 0.8)):
                x = self.start(upper_share, lower_share, reverse)
                for method in ("hybr", "lm", "hybr"):
                    with np.errstate(all="ignore"):
                        try:
                            found = root(self.equations, x, method=method, tol=1e-14)
                        except (OverflowError, ValueError):
                            break
                    if not np.all(np.isfinite(found.x)):
                        break
                    x = found.x
                else:
                    x = self.polished(x)
                    if np.max(np.abs(self.equations(x))) < 1e-11 and self.possible(x):
                        solutions.append(x)
        assert solutions, f"{self.case['name']}: no solution found"
        best = min(solutions, key=lambda x: np.max(np.abs(self.equations(x))))
        for x in solutions:
            assert np.allclose(x, best, rtol=1e-8, atol=1e-8), f"{self.case['name']}: two roots"
        self.starts = len(solutions)
        return best

    def possible(self, x):
        """No air or metal colder than the outside air; roots beyond that are of the algebra only."""
        u = self.unknowns(x)
        return all(u[name] > self.air["t0"] - 1.0 for name in u if name.endswith("_k"))

    def polished(self, x):
        """Newton steps with central differences."""
        for _ in range(6):
            residual = self.equations(x)
            jacobian = np.empty((len(x), len(x)))
            for j in range(len(x)):
                step = 1e-6 * max(abs(x[j]), 1e-3)
                ahead, back = x.copy(), x.copy()
                ahead[j] += step
                back[j] -= step
                jacobian[:, j] = (self.equations(ahead) - self.equations(back)) / (2 * step)
            better = x - np.linalg.solve(jacobian, residual)
            if np.max(np.abs(self.equations(better))) >= np.max(np.abs(residual)):
                break
            x = better
        return x

    def drag(self, u):
        """Momentum that the entering air loses, less that of the jets; each stream leaves once."""
        air, total = self.air, 0.0
        for i, opening in enumerate(self.case["exits"]):
            flow = u[f"exit{i}_kg_s"]
            if opening["stacks_m2"] > 0:
                gained = self.tube(u, i, opening)[1] * opening["velocity_coefficient"]
                gained *= cos(radians(opening["angle_deg"]))
                outside = opening["pressure_coefficient"] * air["dynamic_pa"]
                total += flow * air["stream_m_s"] - gained
                total -= outside * (opening["area_m2"] + opening["stacks_m2"])
                continue
            _, speed = jet(air, opening, u["lower_pa"], u["lower_k"])
            kept = opening["velocity_coefficient"] * speed * cos(radians(opening["angle_deg"]))
            narrowed = min(1.0, opening["discharge"] / opening["velocity_coefficient"])
            push = opening["pressure_coefficient"] * air["dynamic_pa"] * opening["area_m2"]
            total += flow * (air["stream_m_s"] - kept) - narrowed * push
        inlets = [u[f"inlet{i}_kg_s"] for i in range(len(self.case["inlets"]))]
        lost = u["overboard_kg_s"] + max(0.0, -u["inflow_kg_s"])
        lost += sum(max(0.0, -flow) for flow in inlets)
        total += lost * air["stream_m_s"]
        for flow, inlet in zip(inlets, self.case["inlets"]):
            v1 = max(0.0, flow) / (air["rho0"] * inlet["area_m2"])
            short = max(0.0, air["v0"] - v1)
            total += inlet["spillage_k"] * 0.5 * air["rho0"] * inlet["area_m2"] * short**2
        return total

    def check(self, u):
        """Mass and energy of the whole cowl, independent of the equations solved."""
        case, air = self.case, self.air
        heat, _ = self.heats(u)
        inlets = [u[f"inlet{i}_kg_s"] for i in range(len(case["inlets"]))]
        exits = [u[f"exit{i}_kg_s"] for i in range(len(case["exits"]))]
        entering = sum(w for w in inlets if w > 0) + max(0.0, u["inflow_kg_s"])
        to_air_upper = sum(-w for w in inlets if w < 0) + u["overboard_kg_s"]
        to_air_upper += case["induction_kg_s"]
        to_air_lower = sum(exits) + max(0.0, -u["inflow_kg_s"])
        to_air_lower += case.get("lower_induction_kg_s", 0.0)
        mass = entering - to_air_upper - to_air_lower

        rise = CP * to_air_upper * (u["upper_k"] - air["total_k"])
        rise += CP * to_air_lower * (u["lower_k"] - air["total_k"])
        given = case["heads"]["gas_w_k"] * (case["heads"]["gas_k"] - u["head_k"])
        given += case["oil"]["friction_heat_w"] + case["lower_deck"]["exhaust_heat_w"]
        energy = given - heat["skin"] - rise
        assert abs(mass) < 1e-9 * entering, (case["name"], mass)
        assert abs(energy) < 1e-9 * max(abs(given), CP * entering), (case["name"], energy)
        assert min(exits) > 0 and u["overboard_kg_s"] >= 0, case["name"]

    def expected(self):
        u = self.unknowns(self.solve())
        self.check(u)
        heat, before = self.heats(u)
        case, air = self.case, self.air
        inlets = [u[f"inlet{i}_kg_s"] for i in range(len(case["inlets"]))]
        values = {
            "impact_pa": air["impact_pa"],
            "dynamic_pa": air["dynamic_pa"],
            "total_k": air["total_k"],
            "propeller_rise_pa": air["propeller_rise_pa"],
            "ram_pa": self.heads,
            "upper_pa": u["upper_pa"],
            "lower_pa": u["lower_pa"],
            "inlet_kg_s": inlets,
            "fin_kg_s": u["fin_kg_s"],
            "seal_kg_s": u["seal_kg_s"],
            "blast_kg_s": u["blast_kg_s"],
            "cooler_kg_s": u["cooler_kg_s"],
            "overboard_kg_s": u["overboard_kg_s"],
            "inflow_kg_s": u["inflow_kg_s"],
            "exit_kg_s": [u[f"exit{i}_kg_s"] for i in range(len(case["exits"]))],
            "exit_m_s": [
                self.tube(u, i, opening)[1] / u[f"exit{i}_kg_s"]
                if opening["stacks_m2"] > 0
                else jet(air, opening, u["lower_pa"], u["lower_k"])[1]
                for i, opening in enumerate(case["exits"])
            ],
            "upper_k": u["upper_k"],
            "rear_k": u["rear_k"],
            "lower_k": u["lower_k"],
            "head_k": u["head_k"],
            "oil_k": u["oil_k"],
            "fin_heat_w": abs(u["fin_kg_s"]) * CP * (u["rear_k"] - before),
            "cooler_heat_w": heat["cooler"],
            "sump_heat_w": heat["sump"],
        }
        if self.cooled:
            values["cooler_in_k"] = self.cooler_in(u)
            values["cooler_out_k"] = u["cooler_out_k"]
            values["cooler_oil_share"] = u["cooler_share"]
            values["delivered_k"] = delivered(case, u["oil_k"], heat["cooler"])
        values["drag_n"] = self.drag(u)
        return values


# --- cases: invented cowls on invented engines of 100 to 260 hp ----------------------------------


def inlet(ram_share, area_m2, lip_k=1.0, diffuser=None, spillage_k=0.2):
    """An inlet; `diffuser` is (K, area ratio), else the air dumps its whole dynamic pressure."""
    shape = {"k": diffuser[0], "area_ratio": diffuser[1]} if diffuser else None
    downstream = diffuser[0] + 1 / diffuser[1] ** 2 if diffuser else 1.0
    return {
        "ram_share": ram_share,
        "area_m2": area_m2,
        "lip_k": lip_k,
        "diffuser": shape,
        "downstream_k": downstream,
        "spillage_k": spillage_k,
    }


def opening(area_m2, pressure_coefficient=-0.1, discharge=0.85, angle_deg=0.0, velocity=0.98):
    return {
        "area_m2": area_m2,
        "pressure_coefficient": pressure_coefficient,
        "discharge": discharge,
        "velocity_coefficient": velocity,
        "angle_deg": angle_deg,
        "stacks_m2": 0.0,
        "gas_kg_s": 0.0,
        "gas_k": 900.0,
        "pulses": 1.0,
        "wall_loss": 0.0,
    }


def engine(power_hp, load):
    """Heads, fins, oil and cooler in proportion to the rated power, at a share of that power."""
    rated_w = power_hp * 745.7
    flow = round(0.00667 * power_hp, 4)
    return {
        "fins": {"resistance": round(1046.0 / flow**1.8, 2), "exponent": 1.8},
        "heads": {
            "gas_w_k": round(1.29 * power_hp * load**0.58, 3),
            "gas_k": 880.0,
            "oil_w_k": round(0.27 * power_hp, 3),
            "reference_flow_kg_s": flow,
            "reference_fin_w_k": round(2.8 * power_hp, 3),
        },
        "oil": {
            "friction_heat_w": round(0.02 * rated_w * load, 1),
            "flow_kg_s": round(0.002 * power_hp, 4),
            "heat_capacity_j_kg_k": 2150.0,
            "sump_w_k": 6.0,
            "thermostat": {"leak": 0.05, "open_k": 347.15, "full_k": 358.15},
        },
        "cooler": {
            "duct_area_m2": round(pi / 4 * 0.1016**2, 6),
            "duct_k": 2.6,
            "core_resistance": round(900.0 / (0.0013 * power_hp) ** 1.7, 1),
            "core_exponent": 1.7,
            "ua_w_k": round(1.2 * power_hp, 2),
            "rated_air_kg_s": round(0.0013 * power_hp, 5),
            "rated_oil_kg_s": round(0.002 * power_hp, 4),
            "preheat_share": 0.1,
            # The face, and the open sides of a gap behind it.
            "face_m2": 0.021,
            "gap_m2": 0.0,
            "gap_discharge": 0.6,
            # Share of the face that a plate covers; the core is that of the open share.
            "plate_share": 0.0,
            "cores": "one",
            "air_shared": False,
            "oil_shared": False,
        },
        "lower_deck": {"exhaust_heat_w": round(0.06 * rated_w * load, 1), "skin_w_k": 15.0},
        "induction_kg_s": round(0.00075 * power_hp * load, 5),
    }


def cowl(name, power_hp, load, air, openings, prop=None, **changes):
    """One case; `changes` replace or extend parts of it."""
    pressure, temperature, speed = air
    inlets, exits = openings
    case = {
        "name": name,
        "free_stream": {
            "pressure_pa": pressure,
            "temperature_k": temperature,
            "speed_m_s": speed,
        },
        "propeller": {
            "power_w": round(power_hp * 745.7 * load, 1),
            "efficiency": 0.85,
            "disc_area_m2": 2.6,
            "inlet_share": 0.3 if prop is None else prop,
        },
        "inlets": inlets,
        "exits": exits,
        "seal": {"discharge": 0.6, "area_m2": 0.0025},
        "blast": {"discharge": 0.6, "area_m2": 0.0004},
        "overboard": {"discharge": 0.6, "area_m2": 0.0006, "pressure_coefficient": -0.2},
        "inflow": {"discharge": 0.6, "area_m2": 0.0, "impact_share": 0.5},
        **engine(power_hp, load),
    }
    for part, change in changes.items():
        case[part] = {**case[part], **change} if isinstance(change, dict) else change
    return case


SHUT = {"discharge": 0.6, "area_m2": 0.0}
HOT = (94213.0, 307.15)
CRUISE = (75262.0, 280.15)
COLD = (84307.0, 252.15)


def cases():
    pair = [inlet(0.97, 0.0165, 0.8, (0.1, 1.5)), inlet(0.95, 0.0165, 0.8, (0.1, 1.5))]
    made = [
        cowl("hot climb", 180, 0.97, (*HOT, 52.0), (pair, [opening(0.036)])),
        cowl(
            "cruise",
            180,
            0.7,
            (*CRUISE, 82.0),
            ([inlet(0.97, 0.0123, 0.6, (0.12, 1.8)), inlet(0.97, 0.0123, 0.6, (0.12, 1.8))],
             [opening(0.025, angle_deg=20.0)]),
        ),
        cowl("cold cruise", 150, 0.65, (*COLD, 66.0), (pair, [opening(0.0215)])),
        cowl("ground run", 180, 0.35, (101325.0, 303.15, 0.0), (pair, [opening(0.0323, 0.0)]), 0.4),
        cowl(
            "no leak",
            100,
            0.9,
            (*HOT, 45.0),
            ([inlet(0.9, 0.0225)], [opening(0.024, -0.05)]),
            seal=SHUT,
            blast=SHUT,
            overboard=SHUT,
            induction_kg_s=0.0,
        ),
        cowl(
            "closed shutter",
            180,
            0.65,
            (*COLD, 75.0),
            (pair, [opening(0.022)]),
            cooler={"duct_k": 1e4},
        ),
        cowl("no heat", 130, 0.75, (89875.0, 288.15, 60.0), (pair, [opening(0.024)])),
        cowl(
            "two unlike inlets",
            260,
            0.85,
            (*HOT, 62.0),
            ([inlet(0.97, 0.025, 0.5, (0.15, 1.6)), inlet(0.7, 0.019, 0.5)],
             [opening(0.052, -0.12, 0.9, velocity=0.94)]),
            seal={"area_m2": 0.006},
        ),
        cowl(
            "two exits",
            200,
            0.75,
            (*CRUISE, 85.0),
            (pair, [opening(0.018, -0.05, 0.9, 10.0), opening(0.006, -0.25, 0.7, 60.0)]),
        ),
        cowl(
            "inflow leak",
            160,
            0.8,
            (*HOT, 58.0),
            (pair, [opening(0.03)]),
            inflow={"area_m2": 0.003},
        ),
        cowl(
            "nearly shut exit, wide leak out of the lower deck",
            180,
            0.75,
            (*HOT, 62.0),
            (pair, [opening(0.002, -0.05)]),
            inflow={"area_m2": 0.0387, "impact_share": 0.2},
        ),
        cowl(
            "augmentor beside a plain exit",
            180,
            0.9,
            (*HOT, 55.0),
            (
                pair,
                [
                    {
                        **opening(0.02, -0.05, 0.8, 10.0, 0.95),
                        "stacks_m2": 0.004,
                        "gas_kg_s": 0.14,
                        "gas_k": 930.0,
                        "pulses": 1.15,
                        "wall_loss": 0.09,
                    },
                    opening(0.008, -0.1),
                ],
            ),
        ),
        *(
            cowl(
                f"two coolers, air {'shared' if air else 'in turn'}, oil {'shared' if oil else 'in turn'}",
                160,
                0.8,
                (*CRUISE, 70.0),
                (pair, [opening(0.027)]),
                cooler={"cores": "two", "air_shared": air, "oil_shared": oil},
            )
            for air in (True, False)
            for oil in (True, False)
        ),
        # On the front baffle: a hole as large as the core, no cylinder before it, a wall behind it.
        cowl(
            "cooler on the front baffle, close before a wall",
            170,
            0.8,
            (*HOT, 56.0),
            (pair, [opening(0.028)]),
            cooler={
                "duct_area_m2": 0.021,
                "duct_k": 0.5,
                "preheat_share": 0.0,
                "gap_m2": 0.011,
                "gap_discharge": 0.62,
            },
        ),
        cowl(
            "cooler half behind a plate",
            170,
            0.65,
            (*COLD, 68.0),
            (pair, [opening(0.026)]),
            cooler={"plate_share": 0.5},
        ),
        cowl("small exit", 180, 0.75, (*HOT, 60.0), (pair, [opening(0.012, 0.1)])),
        cowl(
            "thermostat partly open",
            100,
            0.6,
            (*CRUISE, 55.0),
            ([inlet(0.93, 0.0175)], [opening(0.019)]),
            oil={"thermostat": {"leak": 0.1, "open_k": 345.15, "full_k": 385.15}},
        ),
        cowl(
            "thermostat cold, most of the oil through the cooler",
            120,
            0.55,
            (*COLD, 60.0),
            (pair, [opening(0.02)]),
            oil={"thermostat": {"leak": 0.6, "open_k": 380.15, "full_k": 390.15}},
        ),
        # One lip of thin sheet that takes in nearly as fast as the air comes, one rounded a little.
        cowl(
            "inlets met at an angle",
            180,
            0.97,
            (*HOT, 46.0),
            (
                [
                    {
                        **inlet(0.97, 0.0125, 1.0),
                        "met": {
                            "angle_deg": 14.0,
                            "crossflow": 3.0,
                            "radius_over_height": 0.0,
                            "nose": 1.6,
                            "factor": 2.0,
                        },
                    },
                    {
                        **inlet(0.95, 0.0125, 0.3, (0.1, 1.5)),
                        "met": {
                            "angle_deg": 14.0,
                            "crossflow": 4.5,
                            "radius_over_height": 0.004,
                            "nose": 1.2,
                            "factor": 3.0,
                        },
                    },
                ],
                [opening(0.04)],
            ),
        ),
        # A scoop into the lower deck drives the fins backwards; the overboard leak and the engine
        # take more than a weak inlet brings.
        cowl(
            "reversed fins, inlet inward",
            140,
            0.6,
            (*CRUISE, 62.0),
            ([inlet(0.45, 0.006)], [opening(0.004, 0.0)]),
            inflow={"area_m2": 0.03, "impact_share": 1.0},
            overboard={"area_m2": 0.03, "pressure_coefficient": -0.3},
            cooler={"duct_area_m2": 0.0},
            propeller={"inlet_share": 0.0},
        ),
        # As before, but air leaves through the inlets as well, and the cooler runs backwards.
        cowl(
            "reversed fins, inlets outward",
            180,
            0.65,
            (*CRUISE, 70.0),
            ([inlet(0.1, 0.015), inlet(0.2, 0.01)], [opening(0.006, 0.0)]),
            inflow={"area_m2": 0.05, "impact_share": 1.0},
            cooler={"duct_k": 0.0, "preheat_share": 0.0},
            propeller={"inlet_share": 0.0},
        ),
        # The engine breathes from the lower deck.
        cowl(
            "lower intake",
            180,
            0.75,
            (*CRUISE, 70.0),
            (pair, [opening(0.026)]),
            induction_kg_s=0.0,
            lower_induction_kg_s=0.1013,
        ),
    ]
    for case in made:
        if case["name"] == "no heat":
            # Gas as warm as the air that comes in: conductances stay, heat does not flow.
            case["heads"]["gas_k"] = free_stream(case)["total_k"]
            case["oil"]["friction_heat_w"] = 0.0
            case["lower_deck"] = {"exhaust_heat_w": 0.0, "skin_w_k": 0.0}
    return made


def rounded(value):
    """Numbers with ten significant digits."""
    if isinstance(value, list):
        return [rounded(v) for v in value]
    return float(f"{value:.10g}")


def main():
    results = []
    for case in cases():
        expected = {key: rounded(value) for key, value in Path(case).expected().items()}
        inputs = {key: value for key, value in case.items() if key != "name"}
        results.append({"name": case["name"], "inputs": inputs, "expected": expected})
    text = json.dumps(results, indent=2, ensure_ascii=False)
    (folder() / "full_path_cases.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
