"""Viscosity and conductivity of the standard beside those of real air at one atmosphere."""

from CoolProp.CoolProp import PropsSI
from fluids import ATMOSPHERE_1976

from output import digits, write_table

CELSIUS = (-40, -20, 0, 15, 20, 40, 60, 80, 100, 120, 150, 200, 250)
COLUMNS = (
    "temperature_degc",
    "temperature_k",
    "viscosity_standard_pa_s",
    "viscosity_real_pa_s",
    "conductivity_standard_w_m_k",
    "conductivity_real_w_m_k",
    "heat_capacity_real_j_kg_k",
    "gamma_real",
    "prandtl_real",
    "density_real_kg_m3",
    "tag",
    "seen",
)


def main():
    rows = []
    for celsius in CELSIUS:
        kelvin = celsius + 273.15

        def real(name, kelvin=kelvin):
            return PropsSI(name, "T", kelvin, "P", 101325.0, "Air")

        values = (
            ATMOSPHERE_1976.viscosity(kelvin),
            real("V"),
            ATMOSPHERE_1976.thermal_conductivity(kelvin),
            real("L"),
            real("C"),
            real("C") / real("O"),
            real("Prandtl"),
            real("D"),
        )
        rows.append(
            (celsius, f"{kelvin:.2f}", *(digits(v, 7) for v in values), "library", "computed")
        )
    write_table("air_properties", COLUMNS, rows)


if __name__ == "__main__":
    main()
