"""Standard atmosphere at pressure altitudes and ISA offsets, by two libraries."""

import ambiance
import numpy as np
from fluids import ATMOSPHERE_1976

from output import ROW_COLUMNS, digits, write_table

FT = 0.3048
EARTH_RADIUS_M = 6356766.0
ALTITUDES_FT = (0, 1000, 2000, 3000, 4000, 5000, 6000, 8000, 10000, 12500, 15000, 18000, 25000)
OFFSETS_K = (0, 15, 20, 30, -30)

COLUMNS = (
    "pressure_altitude_ft",
    "geopotential_m",
    "isa_offset_k",
    "temperature_k",
    "pressure_pa",
    "density_kg_m3",
    "viscosity_pa_s",
    "conductivity_w_m_k",
    "sound_m_s",
    "standard",
    "tag",
    "seen",
)


def geometric(geopotential_m):
    return EARTH_RADIUS_M * geopotential_m / (EARTH_RADIUS_M - geopotential_m)


def row(altitude_ft, geopotential_m, offset_k, state, standard):
    values = [digits(value, 8) for value in state]
    place = [altitude_ft, f"{geopotential_m:g}", offset_k]
    return (*place, *values, standard, "library", "computed")


def table():
    rows = []
    for altitude_ft in ALTITUDES_FT:
        height = altitude_ft * FT
        for offset in OFFSETS_K:
            a = ATMOSPHERE_1976(Z=geometric(height), dT=offset)
            state = (a.T, a.P, a.rho, a.mu, a.k, a.v_sonic)
            rows.append(row(altitude_ft, height, offset, state, "USSA76"))
        b = ambiance.Atmosphere(geometric(height))
        state = (
            b.temperature,
            b.pressure,
            b.density,
            b.dynamic_viscosity,
            b.thermal_conductivity,
            b.speed_of_sound,
        )
        state = [float(np.ravel(value)[0]) for value in state]
        rows.append(row(altitude_ft, height, 0, state, "ICAO7488"))
    write_table("atmosphere", COLUMNS, rows)


def ratios():
    """From θ = 1 − L H / T_sl and δ = θ^(g / R L); both libraries have to agree."""
    lapse, exponent = 0.0065, 9.80665 / (287.05287 * 0.0065)
    rows = []
    for name, altitude_ft in (("A07", 5000), ("A08", 10000)):
        height = altitude_ft * FT
        theta = 1 - lapse * height / 288.15
        delta = theta**exponent
        a, b = ATMOSPHERE_1976(Z=geometric(height)), ambiance.Atmosphere(geometric(height))
        for letter, quantity, value, libraries in (
            ("a", "pressure ratio", delta, (a.P / 101325, b.pressure / 101325)),
            ("b", "temperature ratio", theta, (a.T / 288.15, b.temperature / 288.15)),
            ("c", "density ratio", delta / theta, (a.rho / 1.225, b.density / 1.225)),
        ):
            for other in libraries:
                assert abs(value - float(np.ravel(other)[0])) < 1e-6, (name, quantity)
            inputs = f"pressure_altitude_ft={altitude_ft}"
            cells = (quantity, inputs, "value", f"{value:.6f}", "-", "0.000001")
            rows.append((f"{name}{letter}", *cells, "library", "computed"))
    write_table("atmosphere_ratios", ROW_COLUMNS, rows)


if __name__ == "__main__":
    table()
    ratios()
