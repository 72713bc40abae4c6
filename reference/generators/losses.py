"""Loss coefficients and related flow relations, each by every method the library offers."""

from math import pi, sqrt

import fluids

from output import digits, write_table

COLUMNS = ("element", "method", "inputs", "value", "unit", "standing", "tag", "seen")
D = 0.1016  # m, a 4 in duct
RE = 1e5
FD = 0.018

# Methods far from every other source. They stay in the table, but no test should follow them.
OUTLIERS = {("diffuser_conical", "swamee"), ("bend_rounded", "swamee"), ("grill_square_edge", "blevins")}

rows = []


def add(element, method, inputs, value, unit="-", tag="library"):
    slug = method.lower().replace("-", "_").replace(" ", "_")
    standing = "outlier" if (element, slug) in OUTLIERS else "usable"
    pairs = " ".join(f"{key}={text}" for key, text in inputs.items())
    rows.append((element, slug, pairs, digits(value, 8), unit, standing, tag, "computed"))


def entrances():
    for method in ("Rennels", "Swamee", "Blevins", "Idelchik", "Crane", "Miller"):
        add("entrance_sharp", method, {}, fluids.entrance_sharp(method=method))
    for ratio in (0, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5):
        for method in ("Rennels", "Idelchik", "Crane", "Miller", "Harris", "Swamee"):
            value = fluids.entrance_rounded(Di=D, rc=ratio * D, method=method)
            add("entrance_rounded", method, {"diameter_m": D, "radius_over_diameter": ratio}, value)
    for ratio in (0, 0.02, 0.05, 0.1):
        for method in ("Rennels", "Harris", "Miller"):
            value = fluids.entrance_distance(Di=D, t=ratio * D, l=D, method=method)
            inputs = {"diameter_m": D, "wall_over_diameter": ratio, "reach_over_diameter": 1}
            add("entrance_projecting", method, inputs, value)


def area_steps():
    for ratio in (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9):
        wide = D / sqrt(ratio)
        inputs = {"small_diameter_m": D, "small_over_large_area": ratio}
        add("expansion_sharp", "Borda-Carnot", inputs, (1 - ratio) ** 2)
        for method in ("Rennels", "Hooper"):
            value = fluids.diffuser_sharp(Di1=D, Di2=wide, Re=RE, fd=FD, method=method)
            more = {**inputs, "reynolds": "1e5", "friction": FD}
            add("expansion_sharp", method, more, value)
        for method in ("Rennels", "Crane"):
            value = fluids.contraction_sharp(Di1=wide, Di2=D, method=method)
            add("contraction_sharp", method, inputs, value)


def diffusers():
    for ratio in (1.5, 2, 3, 4):
        for angle in (6, 8, 10, 14, 20, 30, 45, 60, 90, 180):
            for method in ("Rennels", "Crane", "Miller", "Swamee", "Idelchik", "Hooper"):
                value = fluids.diffuser_conical(
                    Di1=D, Di2=D * sqrt(ratio), angle=angle, fd=FD, Re=RE, method=method
                )
                inputs = {
                    "inlet_diameter_m": D,
                    "area_ratio": ratio,
                    "full_angle_deg": angle,
                    "reynolds": "1e5",
                    "friction": FD,
                }
                add("diffuser_conical", method, inputs, value)


def bends():
    for radius in (0.75, 1, 1.5, 2, 3, 5):
        for angle in (30, 45, 90):
            for method in ("Rennels", "Miller", "Crane", "Swamee", "Ito"):
                # This method's table is for long bends.
                if method == "Crane" and radius < 5:
                    continue
                value = fluids.bend_rounded(
                    Di=D,
                    angle=angle,
                    bend_diameters=radius,
                    Re=RE,
                    fd=FD,
                    roughness=0.0,
                    L_unimpeded=20 * D,
                    method=method,
                )
                inputs = {
                    "diameter_m": D,
                    "radius_over_diameter": radius,
                    "angle_deg": angle,
                    "reynolds": "1e5",
                    "friction": FD,
                    "straight_over_diameter": 20,
                }
                add("bend_rounded", method, inputs, value)
    for angle in (30, 45, 60, 90):
        for method in ("Rennels", "Miller", "Crane", "Blevins"):
            value = fluids.bend_miter(angle=angle, Di=D, Re=RE, method=method)
            add("bend_mitre", method, {"diameter_m": D, "angle_deg": angle, "reynolds": "1e5"}, value)


def valves_and_pipes():
    for style, name in enumerate(("centric", "double_offset", "triple_offset")):
        value = fluids.K_butterfly_valve_Crane(D=D, style=style)
        add("butterfly_fully_open", "Crane", {"diameter_m": D, "disc": name}, value)
    for reynolds in (10000, 30000, 100000, 300000):
        for roughness in (0, 0.001, 0.01, 0.03, 0.05):
            value = fluids.friction_factor(Re=reynolds, eD=roughness, Method="Clamond")
            inputs = {"reynolds": reynolds, "roughness_over_diameter": roughness}
            add("pipe_friction", "Colebrook", inputs, value)


def orifices():
    mu, rho = 1.8e-5, 1.2
    for beta in (0.3, 0.5, 0.7):
        for reynolds in ("1e4", "1e5", "1e6"):
            flow = float(reynolds) * pi * D * mu / 4
            value = fluids.C_Reader_Harris_Gallagher(
                D=D, Do=beta * D, rho=rho, mu=mu, m=flow, taps="corner"
            )
            inputs = {
                "diameter_m": D,
                "beta": beta,
                "reynolds": reynolds,
                "density_kg_m3": rho,
                "viscosity_pa_s": "1.8e-5",
            }
            add("orifice_discharge", "ISO 5167", inputs, value)
        value = fluids.discharge_coefficient_to_K(D=D, Do=beta * D, C=0.61)
        add("orifice_loss", "ISO 5167", {"beta": beta, "discharge": 0.61}, value)
        value = fluids.orifice_expansibility(D=D, Do=beta * D, P1=101325.0, P2=99325.0, k=1.4)
        inputs = {"beta": beta, "before_pa": 101325, "behind_pa": 99325, "gamma": 1.4}
        add("orifice_expansibility", "ISO 5167", inputs, value)


def screens():
    for open_share in (0.3, 0.4, 0.5, 0.6, 0.7, 0.8):
        for reynolds in (50, 100, 400, 1000):
            value = fluids.round_edge_screen(alpha=open_share, Re=reynolds)
            inputs = {"open_share": open_share, "wire_reynolds": reynolds}
            add("screen_round_wire", "Blevins", inputs, value)
        inputs = {"open_share": open_share}
        add("screen_square_edge", "Blevins", inputs, fluids.square_edge_screen(alpha=open_share))
        add("grill_square_edge", "Blevins", inputs, fluids.square_edge_grill(alpha=open_share))
        # K = (½ (1 − a) + (1 − a)²) / a²
        shut = 1 - open_share
        value = (0.5 * shut + shut**2) / open_share**2
        add("plate_thick", "Borda-Carnot", inputs, value, tag="derived")


def gas_flow():
    pressure, temperature, gamma = 101325.0, 288.15, 1.4
    for mach in (0.1, 0.15, 0.2, 0.25, 0.3):
        total = temperature * (1 + 0.5 * (gamma - 1) * mach**2)
        ratio = fluids.P_stagnation(pressure, temperature, total, gamma) / pressure
        add("total_over_static_pressure", "isentropic", {"mach": mach, "gamma": gamma}, ratio)
    flow = fluids.isothermal_gas(rho=1.2, fd=0.02, P1=101325.0, P2=99000.0, L=1.5, D=D)
    inputs = {
        "density_kg_m3": 1.2,
        "friction": 0.02,
        "before_pa": 101325,
        "behind_pa": 99000,
        "length_m": 1.5,
        "diameter_m": D,
    }
    add("pipe_gas_flow", "isothermal", inputs, flow, unit="kg/s")
    for angle in (30, 45, 60, 90):
        value = fluids.K_branch_diverging_Crane(
            D_run=D, D_branch=D, Q_run=0.7, Q_branch=0.3, angle=angle
        )
        inputs = {"diameter_m": D, "angle_deg": angle, "branch_over_total_flow": 0.3}
        add("branch_diverging", "Crane", inputs, value)


if __name__ == "__main__":
    entrances()
    area_steps()
    diffusers()
    bends()
    valves_and_pipes()
    orifices()
    screens()
    gas_flow()
    write_table("losses", COLUMNS, rows)
