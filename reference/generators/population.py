"""The generic engine's head from what builders report: a population, not one engine.

The installations are those of `reports/assumptions.json`, the levels those of `reports.csv`. For each
level the generic head (rated power, φ 1.2, 100 °F air) is found at which a small model of the flow
path and the heads gives what was reported. It is written from the model's equations anew and shares
nothing with the core: one inlet, fins, leak and one exit, no oil cooler, no propeller, no duct.

    G_gas (T_g − T_h) = G_fin (T_h − T_a)         the oil's part is left in both
    σΔp = C W^1.8, density behind the fins        G_fin = W c_p (1 − e^−N), N = N_r (W/W_r)^(b−1)

Prints how the values follow; writes `population.csv`. Plain Python, no library.
"""

import csv
import json
import math
import re
import statistics
from pathlib import Path

from output import write_table

HERE = Path(__file__).resolve().parent.parent

CP_AIR = 1005.0  # J/(kg K)
R_AIR = 287.053
RHO_0 = 1.225
INH2O = 249.0889
INHG = 3386.389
INCH2 = 0.0254**2
KNOT = 1852 / 3600
HP = 745.69987
LB = 0.45359237

# Units of the assumptions' texts, SI = factor × value.
UNITS = {
    "hp": HP,
    "in2": INCH2,
    "in": 0.0254,
    "ft": 0.3048,
    "kt": KNOT,
    "%": 0.01,
    "inHg": INHG,
    "inH2O": INH2O,
    "lb/s": LB,
    "L/min": 1e-3 / 60,
    "Btu/min": 1055.056 / 60,
    "": 1.0,
}

# Heads. Generic engine: from memory but where said (defaults of the program).
AIR_PER_ENERGY = 6.2 * LB / 3600 / HP  # kg/J, derived
FIN_SHARE = 0.17  # of the fuel's heat, published
HEATING = 18800 * 1055.056 / LB  # J/kg, published
FLOW_PER_POWER = 0.0147 * LB / HP  # kg/J
DROP = {4: 4.2 * INH2O, 6: 5.3 * INH2O}  # σΔp
DROP_EXPONENT = 1.8  # library
SLOPE = 0.60  # published, NACA TN 584
GAS_EXPONENT = 0.58
CHARGE_EXPONENT = 0.8  # derived
CHARGE_EFFECT = 0.8  # K of gas per K of charge, derived
POINT_AIR = (100 + 459.67) / 1.8
GAS_SLOPE_BASE = (80 + 459.67) / 1.8
FULL_RICH, PEAK_POWER = 1.6, 1.2
BREAK_IN = 80 / 1.8
# Hottest above the mean of a usual engine, K (derived: 20 °F).
EXCESS = 20 / 1.8
# Gas temperature over φ, °F with an 80 °F charge (derived, open flight logs).
GAS = [
    (0.8, 910), (0.9, 985), (1.0, 1090), (1.1, 1165), (1.2, 1152),
    (1.3, 1105), (1.4, 1030), (1.5, 975), (1.6, 940), (1.7, 915),
]  # fmt: skip

# Path (from memory): recovery behind the blade roots, exit, leak, diffusion.
RECOVERY = 0.85
EXIT_CP, EXIT_CD = -0.10, 0.85
LEAK_CD = 0.6
INLET_LOSS = 1.0  # of ½ρV₁², dumped


def kelvin(degf):
    return (degf + 459.67) / 1.8


def degf(kelvin_):
    return kelvin_ * 1.8 - 459.67


def number(text):
    value, unit = re.fullmatch(r"(-?[\d.]+)\s*(.*)", text).groups()
    if unit == "F":
        return kelvin(float(value))
    return UNITS[unit] * float(value)


def interpolated(table, x):
    for (x0, y0), (x1, y1) in zip(table, table[1:], strict=False):
        if x <= x1:
            break
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def gas_k(phi, charge_k, extra=0.0):
    return (
        kelvin(interpolated(GAS, phi))
        + CHARGE_EFFECT * (charge_k - GAS_SLOPE_BASE)
        + extra
    )


def pressure(altitude_m):
    return 101325 * (1 - 2.25577e-5 * altitude_m) ** 5.25588


def bisect(function, low, high):
    """Root of a falling function."""
    for _ in range(200):
        middle = 0.5 * (low + high)
        if function(middle) > 0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


class Engine:
    """Conductances through the generic point with a head of `head_k`, K."""

    def __init__(self, power_w, cylinders, head_k, extra_k):
        self.power_w = power_w
        self.extra_k = extra_k
        self.charge_rated = AIR_PER_ENERGY * power_w
        # At the point: rated manifold pressure that gives rated power there, as the core's line does.
        share = 1.0
        self.charge_point = self.charge(manifold(share, 1.0, POINT_AIR), 1.0, POINT_AIR)
        heat = FIN_SHARE * HEATING * 0.068 * PEAK_POWER * self.charge_point
        self.gas_w_k = heat / (gas_k(PEAK_POWER, POINT_AIR) - head_k)
        self.flow = FLOW_PER_POWER * power_w
        self.drop = DROP[cylinders]
        fin = heat / (head_k - POINT_AIR)
        effectiveness = fin / (self.flow * CP_AIR)
        self.units = -math.log(1 - effectiveness)
        self.exponent = 1 - (1 - SLOPE) * math.expm1(self.units) / self.units

    def charge(self, manifold_pa, speed, air_k):
        ratio = manifold_pa / (28.8 * INHG)
        return self.charge_rated * ratio * speed * (288.15 / air_k) ** CHARGE_EXPONENT

    def fin(self, flow):
        units = self.units * (flow / self.flow) ** (self.exponent - 1)
        return -flow * CP_AIR * math.expm1(-units)

    def head(self, flow, air_k, charge, phi):
        gas = gas_k(phi, air_k, self.extra_k)
        conductance = self.gas_w_k * (charge / self.charge_point) ** GAS_EXPONENT
        fin = self.fin(flow)
        return (conductance * gas + fin * air_k) / (conductance + fin)

    def fin_drop(self, flow, density_behind):
        return self.drop * (flow / self.flow) ** DROP_EXPONENT * RHO_0 / density_behind


def manifold(share, speed, air_k):
    """Manifold pressure, Pa, of a share of rated power: a line from none at 4 inHg."""
    filling = share / (speed * math.sqrt(288.15 / air_k))
    return INHG * (4 + filling * 24.8)


class Installation:
    """What is assumed for one level."""

    def __init__(self, case, level):
        condition = case["conditions"][level["condition"]]
        rows = [*case["assumed"], *condition["assumed"]]
        self.of = {row["input"]: number(row["value"]) for row in rows}
        engine = case["choices"]["engine"]
        self.cylinders = 6 if engine["cylinders"] > 4 else 4
        self.extra_k = BREAK_IN if engine.get("break_in") else 0.0
        choices = condition["choices"]
        self.phi = (
            FULL_RICH if choices["mixture"] == "full_rich" else self.of["condition.phi"]
        )
        exit_area = self.of["exit.traced_area_m2"]
        if "exit.flap_open_area_m2" in self.of:
            opening = self.of["condition.flap_opening"]
            exit_area += opening * (self.of["exit.flap_open_area_m2"] - exit_area)
        self.exit_area = exit_area
        # A pressure that was measured stands for the path.
        self.measured_drop = None
        for match in level.get("match", []):
            if match["figure"] == "baffle_drop":
                self.measured_drop = number(match["to"])

    def stream(self):
        pressure_pa = pressure(self.of["condition.altitude_m"])
        static_k = self.of["condition.oat_k"]
        # Impact pressure of the calibrated airspeed, incompressible.
        impact_pa = 0.5 * RHO_0 * self.of["condition.airspeed_m_s"] ** 2
        density = pressure_pa / (R_AIR * static_k)
        speed = math.sqrt(2 * impact_pa / density)
        return pressure_pa, density, impact_pa, static_k + speed**2 / (2 * CP_AIR)

    def head(self, generic_head_k):
        """Mean head, K, with a generic head."""
        engine = Engine(
            self.of["engine.rated_power_w"],
            self.cylinders,
            generic_head_k,
            self.extra_k,
        )
        pressure_pa, density, impact_pa, air_k = self.stream()
        rated_rpm = self.of.get("engine.rated_rpm", 2700.0)
        speed = self.of["condition.rpm"] / rated_rpm
        if "condition.manifold_pa" in self.of:
            manifold_pa = self.of["condition.manifold_pa"]
        else:
            manifold_pa = manifold(self.of["condition.power_share"], speed, air_k)
        charge = engine.charge(manifold_pa, speed, air_k)
        inlet = self.of["inlet.traced_area_m2"]
        leak = self.of["decks.measured_leak_m2"]

        def behind(flow):
            head = engine.head(flow, air_k, charge, self.phi)
            return air_k + engine.fin(flow) * (head - air_k) / (flow * CP_AIR)

        def surplus(flow):
            """Pressure left at the exit, Pa, with so much air through the fins."""
            out_k = behind(flow)
            drop = engine.fin_drop(flow, pressure_pa / (R_AIR * out_k))
            if self.measured_drop is not None:
                return self.measured_drop - drop
            past = LEAK_CD * leak * math.sqrt(2 * density * drop)
            total = flow + past
            mixed_k = (flow * out_k + past * air_k) / total
            dumped = INLET_LOSS * (total / inlet) ** 2 / (2 * density)
            jet_density = pressure_pa / (R_AIR * mixed_k)
            jet = (total / (EXIT_CD * self.exit_area)) ** 2 / (2 * jet_density)
            return (RECOVERY - EXIT_CP) * impact_pa - dumped - drop - jet

        flow = bisect(surplus, 0.02 * engine.flow, 20 * engine.flow)
        return engine.head(flow, air_k, charge, self.phi)


def levels():
    """Each level with its installation."""
    with (HERE / "reports.csv").open(encoding="utf-8") as file:
        reports = {row["id"]: row for row in csv.DictReader(file)}
    text = (HERE / "reports" / "assumptions.json").read_text(encoding="utf-8")
    for case in json.loads(text)["cases"]:
        for level in case["levels"]:
            for name in level["reports"]:
                if reports[name]["group"] == "level":
                    yield case["name"], reports[name], Installation(case, level)


def main():
    found = {4: [], 6: []}
    rows = []
    for case, report, installation in levels():
        reported = 0.5 * (float(report["low"]) + float(report["high"]))
        mean_k = kelvin(reported) - EXCESS

        def too_cold(generic_k, installation=installation, mean_k=mean_k):
            return mean_k - installation.head(generic_k)

        generic = degf(bisect(too_cold, kelvin(250), kelvin(600)))
        at_default = 390 if installation.cylinders == 4 else 405
        predicted = degf(installation.head(kelvin(at_default)) + EXCESS)
        bound = report["bound"]
        found[installation.cylinders].append((case, generic, bound))
        rows.append(
            (
                report["id"],
                installation.cylinders,
                f"{reported:g}",
                bound,
                f"{predicted:.0f}",
                f"{generic:.0f}",
                "derived",
                "computed",
            )
        )
        print(
            f"{report['id']}: {installation.cylinders} cylinders, reported {bound} {reported:.0f}, "
            f"predicted {predicted:.0f}; generic head that gives it {generic:.0f} °F"
        )
    for cylinders, all_ in found.items():
        plain = [generic for _, generic, bound in all_ if not bound]
        cases = {}
        for case, generic, bound in all_:
            if not bound:
                cases.setdefault(case, []).append(generic)
        means = [statistics.mean(own) for own in cases.values()]
        for name, own in (("levels", plain), ("installations", means)):
            middle = statistics.median(own)
            deviation = statistics.stdev(own) if len(own) > 1 else float("nan")
            reach = 1.645 * deviation
            print(
                f"{cylinders} cylinders, {len(own)} {name} without bounds: median {middle:.0f} °F, "
                f"standard deviation {deviation:.0f}, nine in ten {middle - reach:.0f} to "
                f"{middle + reach:.0f}"
            )
    write_table(
        "population",
        (
            "id",
            "cylinders",
            "reported_degf",
            "bound",
            "predicted_degf",
            "generic_head_degf",
            "tag",
            "seen",
        ),
        rows,
    )


if __name__ == "__main__":
    main()
