"""Values that follow from equations one can solve by hand, without any library."""

from math import sqrt

from output import ROW_COLUMNS, write_table

GAMMA = 1.4
R = 287.05287  # J/(kg K)
P_SL = 101325.0  # Pa
T_SL = 288.15  # K
LAPSE = 0.0065  # K/m
G0 = 9.80665  # m/s²
FT = 0.3048  # m
KT = 1852.0 / 3600.0  # m/s
IN2 = 0.0254**2  # m²
LB = 0.45359237  # kg
INH2O = 249.08891  # Pa


class Rows:
    """Rows of one table, all derived and computed."""

    def __init__(self, name):
        self.name = name
        self.rows = []

    def add(self, row_id, quantity, inputs, value, decimals, unit, tolerance):
        text = f"{value:.{decimals}f}"
        self.rows.append(
            (row_id, quantity, inputs, "value", text, unit, tolerance, "derived", "computed")
        )

    def write(self):
        write_table(self.name, ROW_COLUMNS, self.rows)


def sound(temperature):
    return sqrt(GAMMA * R * temperature)


def isa(altitude_ft, offset_k=0.0):
    """Pressure and temperature at a pressure altitude below 11 km."""
    standard = T_SL - LAPSE * altitude_ft * FT
    pressure = P_SL * (standard / T_SL) ** (G0 / (R * LAPSE))
    return pressure, standard + offset_k


def impact_pressure(cas):
    return P_SL * ((1 + 0.2 * (cas / sound(T_SL)) ** 2) ** 3.5 - 1)


def mach(cas, pressure):
    return sqrt(5 * ((impact_pressure(cas) / pressure + 1) ** (2 / 7) - 1))


def calibrated(impact):
    return sound(T_SL) * sqrt(5 * ((impact / P_SL + 1) ** (2 / 7) - 1))


def airspeed():
    table = Rows("airspeed")
    table.add(
        "B01", "impact pressure", "cas_kt=100", impact_pressure(100 * KT), 2, "Pa", 0.05
    )
    for row, cas, altitude, offset in (("B02", 200, 10000, 0), ("B03", 150, 8000, 20)):
        pressure, temperature = isa(altitude, offset)
        m = mach(cas * KT, pressure)
        true = m * sound(temperature)
        sigma = pressure / (R * temperature) / (P_SL / (R * T_SL))
        inputs = f"cas_kt={cas} pressure_altitude_ft={altitude} isa_offset_k={offset}"
        table.add(f"{row}a", "true airspeed", inputs, true / KT, 3, "kt", 0.0005)
        table.add(f"{row}b", "Mach number", inputs, m, 5, "-", 0.000005)
        table.add(
            f"{row}c", "equivalent airspeed", inputs, true * sqrt(sigma) / KT, 3, "kt", 0.0005
        )
    for letter, drop in zip("abcde", (4, 5, 6, 7, 8)):
        reads = calibrated(drop * INH2O) / KT
        table.add(
            f"B04{letter}",
            "airspeed that an indicator across the baffles shows",
            f"drop_inh2o={drop}",
            reads,
            2,
            "kt",
            0.02,
        )
    table.write()


def otto_cycle():
    table = Rows("otto_cycle")
    for letter, ratio in zip("abc", (7, 8.5, 10)):
        efficiency = 1 - ratio**-0.3
        table.add(
            f"E05{letter}", "Otto efficiency", f"compression={ratio}", efficiency, 4, "-", 0.0001
        )
    table.write()


def inlet_recovery():
    table = Rows("inlet_recovery")
    for letter, ratio in zip("abcd", (0.3, 0.4, 0.5, 0.6)):
        table.add(
            f"F02{letter}",
            "static recovery before the inlet",
            f"velocity_ratio={ratio}",
            1 - ratio**2,
            2,
            "-",
            1e-12,
        )
    table.write()


def shutter_flow():
    table = Rows("shutter_flow")
    core, opened = 10.0, 0.1
    for letter, angle, shut in (("a", 20, 1.54), ("b", 40, 10.8), ("c", 60, 118.0)):
        fraction = sqrt((core + opened) / (core + shut))
        table.add(
            f"G04{letter}",
            "flow over flow with the shutter open",
            f"angle_deg={angle} core_k=10 open_k=0.1 shutter_k={shut:g}",
            fraction,
            4,
            "-",
            0.001,
        )
    table.write()


def butterfly_gap():
    """Disc and gap to the fourth power, drilled holes beside them; losses of weisbach_butterfly.csv."""
    table = Rows("butterfly_gap")
    disc = {0: 0.10, 15: 0.90, 30: 3.91, 45: 18.7, 50: 32.6, 55: 58.8, 60: 118.0, 65: 256.0, 70: 751.0}

    def hole(share):
        return 0.62 * share / (1 - 0.62 * share)

    for gap, drilled in ((0.12, 0.0), (0.15, 0.0), (0.15, 0.05)):
        for angle in (*disc, 90):
            of_disc = disc[angle] ** -0.5 if angle in disc else 0.0
            passage = (of_disc**4 + hole(gap) ** 4) ** 0.25 + hole(drilled)
            loss = passage**-2
            table.add(
                f"G05-{100 * gap:g}-{100 * drilled:g}-{angle}",
                "loss coefficient",
                f"angle_deg={angle} gap={gap:g} drilled={drilled:g}",
                loss,
                4,
                "-",
                f"{1e-4 + 1e-6 * loss:.1g}",
            )
    table.write()


def momentum_drag():
    table = Rows("momentum_drag")
    for letter, loss in zip("abc", (0.2, 0.5, 0.8)):
        drag = 2 * (1 - sqrt(1 - loss))
        table.add(
            f"H01{letter}",
            "drag coefficient on the area captured",
            f"loss={loss}",
            drag,
            5,
            "-",
            0.00001,
        )
    for letter, loss in zip("abc", (0.2, 0.5, 1.0)):
        ratio = 2 * (1 - sqrt(1 - loss)) / loss
        table.add(
            f"H02{letter}", "drag power over pumping power", f"loss={loss:g}", ratio, 5, "-", 0.00001
        )
    for letter, loss in zip("ab", (0.2, 0.5)):
        table.add(
            f"H03{letter}",
            "temperature ratio for zero drag",
            f"loss={loss}",
            1 / (1 - loss),
            2,
            "-",
            1e-12,
        )
    table.write()


def rayleigh(m):
    """T₀/T₀*, p/p* and p₀/p₀* of frictionless flow with heat in a duct."""
    d = 1 + GAMMA * m**2
    stem = 1 + 0.5 * (GAMMA - 1) * m**2
    total_temperature = 2 * (GAMMA + 1) * m**2 * stem / d**2
    pressure = (1 + GAMMA) / d
    total_pressure = pressure * (2 * stem / (GAMMA + 1)) ** (GAMMA / (GAMMA - 1))
    return total_temperature, pressure, total_pressure


def bisected(function, low, high):
    """Root of a rising function."""
    for _ in range(200):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if function(middle) < 0 else (low, middle)
    return 0.5 * (low + high)


def nozzle_flow_ratio(drop):
    """Isentropic nozzle over the incompressible formula, at drop / upstream total pressure."""
    r = 1 - drop
    isentropic = sqrt(
        2 * GAMMA / (GAMMA - 1) * (r ** (2 / GAMMA) - r ** ((GAMMA + 1) / GAMMA))
    )
    return isentropic / sqrt(2 * drop)


def gas_dynamics():
    table = Rows("gas_dynamics")
    names = ("T0/T0*", "p/p*", "p0/p0*")
    for letter, name, value in zip("abc", names, rayleigh(0.2)):
        table.add(f"I01{letter}", f"Rayleigh {name}", "mach=0.2", value, 5, "-", 0.00001)

    t1, p1, p01 = rayleigh(0.15)
    m2 = bisected(lambda m: rayleigh(m)[0] - t1 * 360 / 300, 0.15, 1.0)
    _, p2, p02 = rayleigh(m2)
    inputs = "mach=0.15 total_before_k=300 total_after_k=360"
    for letter, name, value in zip("abc", ("M2", "p2/p1", "p02/p01"), (m2, p2 / p1, p02 / p01)):
        table.add(f"I02{letter}", f"Rayleigh {name}", inputs, value, 6, "-", 0.000001)

    for letter, drop in zip("abc", (0.01, 0.02, 0.05)):
        table.add(
            f"I03{letter}",
            "compressible over incompressible nozzle flow",
            f"drop_over_total={drop}",
            nozzle_flow_ratio(drop),
            5,
            "-",
            0.00001,
        )
    table.write()


def leak():
    table = Rows("leak")
    density = P_SL / (R * T_SL)
    for letter, drop in zip("abc", (4, 6, 8)):
        flow = 0.6 * IN2 * sqrt(2 * density * drop * INH2O) / LB
        table.add(
            f"J03{letter}",
            "leak flow",
            f"area_in2=1 discharge=0.6 drop_inh2o={drop}",
            flow,
            4,
            "lb/s",
            f"{0.005 * flow:.2g}",
        )
    table.write()


if __name__ == "__main__":
    airspeed()
    otto_cycle()
    inlet_recovery()
    shutter_flow()
    butterfly_gap()
    momentum_drag()
    gas_dynamics()
    leak()
