"""Efficiency of annular fins: exact, as a straight fin, and by Schmidt's approximation."""

from math import log, sqrt, tanh

from ht import fin_efficiency_Kern_Kraus

from output import digits, write_table

MATERIALS = (("aluminium", 160.0), ("steel", 40.0))
FILM_W_M2_K = (60.0, 100.0, 150.0, 200.0)
SHAPES = ((0.14, 0.02, 0.002), (0.14, 0.03, 0.002), (0.15, 0.025, 0.0012))
COLUMNS = (
    "material",
    "conductivity_w_m_k",
    "film_w_m2_k",
    "base_diameter_m",
    "height_m",
    "thickness_m",
    "annular_exact",
    "straight",
    "annular_schmidt",
    "tag",
    "seen",
)


def straight(conductivity, film, height, thickness):
    """tanh(m L) / (m L), L = height + half the thickness"""
    m = sqrt(2 * film / (conductivity * thickness))
    reach = m * (height + thickness / 2)
    return tanh(reach) / reach


def schmidt(conductivity, film, base, height, thickness):
    """tanh(m r φ) / (m r φ), φ = (R/r − 1)(1 + 0.35 ln R/r)"""
    m = sqrt(2 * film / (conductivity * thickness))
    radius = base / 2
    ratio = (radius + height + thickness / 2) / radius
    reach = m * radius * (ratio - 1) * (1 + 0.35 * log(ratio))
    return tanh(reach) / reach


def main():
    rows = []
    for material, conductivity in MATERIALS:
        for film in FILM_W_M2_K:
            for base, height, thickness in SHAPES:
                exact = fin_efficiency_Kern_Kraus(
                    Do=base, D_fin=base + 2 * height, t_fin=thickness, k_fin=conductivity, h=film
                )
                values = (
                    exact,
                    straight(conductivity, film, height, thickness),
                    schmidt(conductivity, film, base, height, thickness),
                )
                rows.append(
                    (
                        material,
                        f"{conductivity:g}",
                        f"{film:g}",
                        base,
                        height,
                        thickness,
                        *(digits(v, 6) for v in values),
                        "library",
                        "computed",
                    )
                )
    write_table("fin_efficiency", COLUMNS, rows)


if __name__ == "__main__":
    main()
