"""Effectiveness of heat exchangers over their number of transfer units."""

from math import exp

from ht import NTU_from_effectiveness, effectiveness_from_NTU

from output import ROW_COLUMNS, digits, write_table

RATIOS = (0.1, 0.25, 0.5, 0.75, 1.0)
UNITS = (0.1, 0.25, 0.5, 0.75, 1, 1.5, 2, 3, 5)
ARRANGEMENTS = {
    "counterflow": "counterflow",
    "parallel": "parallel",
    "crossflow": "crossflow",
    "crossflow_approximate": "crossflow approximate",
    "crossflow_mixed_cmin": "crossflow, mixed Cmin",
    "crossflow_mixed_cmax": "crossflow, mixed Cmax",
}
COLUMNS = ("capacity_ratio", "ntu", *ARRANGEMENTS, "tag", "seen")


def table():
    rows = []
    for ratio in RATIOS:
        for units in UNITS:
            values = [
                digits(effectiveness_from_NTU(NTU=units, Cr=ratio, subtype=name), 10)
                for name in ARRANGEMENTS.values()
            ]
            rows.append((ratio, units, *values, "library", "computed"))
    write_table("effectiveness_ntu", COLUMNS, rows)


def examples():
    rows = []

    def add(name, quantity, inputs, text, unit, tolerance):
        rows.append(
            (name, quantity, inputs, "value", text, unit, tolerance, "library", "computed")
        )

    for letter, arrangement in (("a", "crossflow"), ("b", "crossflow_approximate")):
        value = effectiveness_from_NTU(NTU=1, Cr=0.5, subtype=ARRANGEMENTS[arrangement])
        inputs = f"arrangement={arrangement} ntu=1 capacity_ratio=0.5"
        add(f"K01{letter}", "effectiveness", inputs, f"{value:.5f}", "-", "0.00001")

    # Both streams leave equally warm, which fixes the heat; the area follows.
    hot_w_k, cold_w_k = 0.15 * 2000.0, 0.60 * 1000.0
    outlet = (hot_w_k * 250.0 + cold_w_k * 30.0) / (hot_w_k + cold_w_k)
    heat = hot_w_k * (250.0 - outlet)
    effectiveness = heat / (min(hot_w_k, cold_w_k) * (250.0 - 30.0))
    units = NTU_from_effectiveness(effectiveness, Cr=hot_w_k / cold_w_k, subtype="crossflow")
    area = units * hot_w_k / 1000.0
    inputs = (
        "arrangement=crossflow hot_in_degc=250 cold_in_degc=30 hot_kg_s=0.15 cold_kg_s=0.60"
        " hot_cp_j_kg_k=2000 cold_cp_j_kg_k=1000 u_w_m2_k=1000"
    )
    add("K03a", "outlet temperature", inputs, f"{outlet:.2f}", "degC", "0.005")
    add("K03b", "heat", inputs, f"{heat:.0f}", "W", "0.5")
    add("K03c", "effectiveness", inputs, f"{effectiveness:.4f}", "-", "0.00005")
    add("K03d", "number of transfer units", inputs, f"{units:.4f}", "-", "0.00005")
    add("K03e", "area", inputs, f"{area:.4f}", "m2", "0.00005")
    write_table("crossflow_examples", ROW_COLUMNS, rows)


def check_counterflow():
    """One arrangement has a closed form; the library has to agree with it."""
    for ratio in RATIOS[:-1]:
        for units in UNITS:
            decay = exp(-units * (1 - ratio))
            value = effectiveness_from_NTU(NTU=units, Cr=ratio, subtype="counterflow")
            assert abs(value - (1 - decay) / (1 - ratio * decay)) < 1e-12


if __name__ == "__main__":
    check_counterflow()
    table()
    examples()
