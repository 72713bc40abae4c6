"""Whole oil cooler cores from rows, tubes and fins: air-side conductance, pressure drop and heat given up.

Plain fins take friction and heat of developed laminar flow from fin_duct.py, which solves the equations of the
channel. All else is written from the equations in fin_core.toml.
"""

from math import sqrt, tanh

import numpy as np
from scipy.special import gammainc

from fin_duct import friction_reynolds, nusselt
from output import write_table

R = 8314.32 / 28.9644
CP = 3.5 * R
FILM_K = 330.0
VISCOSITY = 1.458e-6 * FILM_K**1.5 / (FILM_K + 110.4)
CONDUCTIVITY = 2.64638e-3 * FILM_K**1.5 / (FILM_K + 245.4 * 10 ** (-12 / FILM_K))
PRANDTL = CP * VISCOSITY / CONDUCTIVITY
DENSITY = 101325.0 / (R * 288.15)
ALUMINIUM = 180.0


def plain(core, flux, height, gap):
    """Film coefficient and 4 f L/D of plain channels."""
    aspect = min(gap / height, height / gap)
    d = 4 * gap * height / (2 * (gap + height))
    re = flux * d / VISCOSITY
    plate = 0.664 * PRANDTL ** (1 / 3) * sqrt(re * d / core["depth"])
    film = (nusselt(aspect) ** 3 + plate**3) ** (1 / 3) * CONDUCTIVITY / d
    x = core["depth"] / d / re
    k = 0.674 + 1.668 * aspect - 0.912 * aspect**2
    c = 2.9e-5 + 4.63e-4 * aspect - 2.02e-4 * aspect**2
    f = (3.44 / sqrt(x) + (k / (4 * x) + friction_reynolds(aspect) - 3.44 / sqrt(x)) / (1 + c / x**2)) / re
    return film, 4 * f * core["depth"] / d


def offset(core, flux, height, gap):
    """The same of offset strips."""
    t, strip = core["fin"], core["strip"]
    # Four times the free volume over the wetted area of one strip.
    wetted = 2 * gap * strip + 2 * height * strip + 2 * t * height + t * gap
    d = 4 * gap * height * strip / wetted
    re = flux * d / VISCOSITY
    a, de, g = gap / height, t / strip, t / gap
    j = 0.6522 * re**-0.5403 * a**-0.1541 * de**0.1499 * g**-0.0678
    j *= (1 + 5.269e-5 * re**1.340 * a**0.504 * de**0.456 * g**-1.055) ** 0.1
    f = 9.6243 * re**-0.7422 * a**-0.1856 * de**0.3053 * g**-0.2659
    f *= (1 + 7.669e-8 * re**4.429 * a**0.920 * de**3.767 * g**0.236) ** 0.1
    return j * flux * CP / PRANDTL ** (2 / 3), 4 * f * core["depth"] / d


def rated(core):
    """Conductance on the air side, pressure drop, and heat per kelvin of inlet difference."""
    height, gap = core["pitch"] - core["tube"], core["spacing"] - core["fin"]
    free = height * gap / (core["pitch"] * core["spacing"])
    flux = core["flux"] / free
    film, friction = (offset if core["strip"] else plain)(core, flux, height, gap)
    m = sqrt(2 * film / (ALUMINIUM * core["fin"]))
    efficiency = tanh(m * height / 2) / (m * height / 2)
    fins = core["rows"] * core["width"] / core["spacing"]
    air = film * fins * core["depth"] * (2 * gap + 2 * height * efficiency)
    drop = (friction + (1 - free) / 2 + (1 - free) ** 2) * flux**2 / (2 * DENSITY)
    ua = 1 / (1 / air + 1 / (core["oil_film"] * 2 * core["rows"] * core["width"] * core["depth"]))
    hot, cold = core["oil"] * 2100.0, core["flux"] * core["rows"] * core["width"] * core["pitch"] * CP
    n = np.arange(1, 200)
    heat = np.sum(gammainc(n, ua / hot) * gammainc(n, ua / cold)) * hot * cold / ua
    return {"air_conductance": air, "drop": drop, "heat": float(heat)}


UNITS = {"air_conductance": "W/K", "drop": "Pa", "heat": "W/K"}

CORES = (
    {"width": 0.165, "rows": 11, "pitch": 0.0119, "depth": 0.051, "tube": 0.003, "spacing": 0.0014, "fin": 0.00015,
     "strip": 0.0032, "flux": 9.0, "oil_film": 1200.0, "oil": 0.22},
    {"width": 0.165, "rows": 11, "pitch": 0.0119, "depth": 0.051, "tube": 0.003, "spacing": 0.0014, "fin": 0.00015,
     "strip": 0.0, "flux": 9.0, "oil_film": 1200.0, "oil": 0.22},
    {"width": 0.2, "rows": 8, "pitch": 0.010, "depth": 0.09, "tube": 0.002, "spacing": 0.0022, "fin": 0.0002,
     "strip": 0.0, "flux": 4.0, "oil_film": 800.0, "oil": 0.15},
    {"width": 0.25, "rows": 13, "pitch": 0.012, "depth": 0.04, "tube": 0.0025, "spacing": 0.0018, "fin": 0.0001,
     "strip": 0.006, "flux": 14.0, "oil_film": 2000.0, "oil": 0.3},
)


def main():
    rows = []
    for at, core in enumerate(CORES):
        inputs = " ".join(f"{key}={value}" for key, value in core.items())
        for role, value in rated(core).items():
            share = 0.005 if core["strip"] == 0.0 else 1e-5
            rows.append((f"C{at}{role[0]}", role.replace("_", " "), inputs, "value", f"{value:.7g}", UNITS[role],
                         f"{share * value:.2g}", "derived", "computed"))
    write_table("fin_core", ("id", "quantity", "inputs", "role", "value", "unit", "tolerance", "tag", "seen"), rows)


if __name__ == "__main__":
    main()
