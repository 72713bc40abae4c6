"""Properties of four engine oils over temperature.

The two viscosities that define each oil are typical values from memory; everything else follows.
"""

from math import log10

from chemicals import viscosity_index

from output import digits, write_table

# Kinematic viscosity at 40 and 100 °C, cSt.
OILS = {
    "sae50": (215.0, 19.6),
    "sae40": (140.0, 14.6),
    "20w50": (165.0, 19.0),
    "15w50": (140.0, 19.4),
}
CELSIUS = (-20, 0, 20, 40, 60, 80, 90, 100, 110, 118, 130, 150)
GRAVITY = 0.885  # at 15 °C
BTU_LB_F = 4186.8  # J/(kg K)
BTU_IN_H_FT2_F = 0.144228  # W/(m K)

COLUMNS = (
    "oil",
    "viscosity_40_cst",
    "viscosity_100_cst",
    "d341_a",
    "d341_b",
    "viscosity_index",
    "temperature_degc",
    "viscosity_cst",
    "viscosity_mpa_s",
    "density_kg_m3",
    "heat_capacity_j_kg_k",
    "conductivity_w_m_k",
    "prandtl",
    "tag",
    "seen",
)


def d341(nu_40, nu_100):
    """A and B of log₁₀ log₁₀(ν + 0.7) = A − B log₁₀ T."""
    at_40, at_100 = (log10(log10(nu + 0.7)) for nu in (nu_40, nu_100))
    b = (at_40 - at_100) / (log10(373.15) - log10(313.15))
    return at_40 + b * log10(313.15), b


def main():
    rows = []
    for oil, (nu_40, nu_100) in OILS.items():
        a, b = d341(nu_40, nu_100)
        index = viscosity_index(nu_40 * 1e-6, nu_100 * 1e-6)
        for celsius in CELSIUS:
            nu = 10 ** 10 ** (a - b * log10(celsius + 273.15)) - 0.7
            density = 1000 * GRAVITY * (1 - 0.0007 * (celsius - 15))
            fahrenheit = celsius * 1.8 + 32
            # Cragoe: c = (0.388 + 0.00045 t) / √s, k = 0.813 / s (1 − 0.0003 (t − 32)), t in °F
            capacity = (0.388 + 0.00045 * fahrenheit) / GRAVITY**0.5 * BTU_LB_F
            conductivity = (
                0.813 / GRAVITY * (1 - 0.0003 * (fahrenheit - 32)) * BTU_IN_H_FT2_F
            )
            dynamic = nu * 1e-6 * density
            values = (
                nu,
                dynamic * 1000,
                density,
                capacity,
                conductivity,
                dynamic * capacity / conductivity,
            )
            rows.append(
                (
                    oil,
                    f"{nu_40:g}",
                    f"{nu_100:g}",
                    digits(a, 6),
                    digits(b, 6),
                    digits(index, 6),
                    celsius,
                    *(digits(v, 6) for v in values),
                    "library",
                    "computed",
                )
            )
    write_table("oil", COLUMNS, rows)


if __name__ == "__main__":
    main()
