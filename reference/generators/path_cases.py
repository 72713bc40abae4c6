"""Four flow paths at a given flow: what the stations read, how big the exit is, what it costs.

No leaks. The exit is an isentropic nozzle without loss of flow, sized to pass what enters.
"""

from math import sqrt

from closed_forms import IN2, INH2O, KT, LB, R, isa, mach, sound
from output import write_table

CP = 3.5 * R
COLUMNS = (
    "id",
    "cas_kt",
    "pressure_altitude_ft",
    "isa_offset_k",
    "flow_lb_s",
    "inlet_in2",
    "diffuser_recovery",
    "fins_inh2o",
    "heat_kw",
    "exit_pressure_coefficient",
    "inlet_velocity_ratio",
    "upper_inh2o",
    "lower_inh2o",
    "temperature_rise_k",
    "exit_m_s",
    "exit_in2",
    "drag_n",
    "tag",
    "seen",
)
CASES = {
    "A": (150, 8000, 0, 2.0, 40, 0.0, 6, 50.33475, 0.0),
    "B": (150, 8000, 0, 2.0, 40, 0.6, 6, 50.33475, 0.0),
    "C": (90, 2000, 20, 2.3, 60, 0.6, 3.5, 67.113, -0.2),
    "D": (150, 8000, 0, 2.0, 40, 0.6, 6, 50.33475, -0.1),
}


def answers(cas_kt, altitude_ft, offset_k, flow_lb_s, inlet_in2, recovery, fins, heat_kw, cp_exit):
    p0, t0 = isa(altitude_ft, offset_k)
    m = mach(cas_kt * KT, p0)
    v0 = m * sound(t0)
    rho0 = p0 / (R * t0)
    q = 0.5 * rho0 * v0**2
    impact = p0 * ((1 + 0.2 * m**2) ** 3.5 - 1)
    flow = flow_lb_s * LB

    # The inlet face has the density of the free stream; what the diffuser leaves is lost.
    v1 = flow / (rho0 * inlet_in2 * IN2)
    upper = impact - (1 - recovery) * 0.5 * rho0 * v1**2
    lower = upper - fins * INH2O
    rise = heat_kw * 1000 / (flow * CP)
    total = t0 * (1 + 0.2 * m**2) + rise

    p5 = p0 + cp_exit * q
    t5 = total * (p5 / (p0 + lower)) ** (2 / 7)
    v5 = sqrt(2 * CP * (total - t5))
    area = flow / (p5 / (R * t5) * v5)
    drag = flow * (v0 - v5) - (p5 - p0) * area
    return (
        f"{v1 / v0:.4f}",
        f"{upper / INH2O:.3f}",
        f"{lower / INH2O:.3f}",
        f"{rise:.3f}",
        f"{v5:.3f}",
        f"{area / IN2:.3f}",
        f"{drag:.3f}",
    )


if __name__ == "__main__":
    write_table(
        "path_cases",
        COLUMNS,
        [
            (name, *inputs, *answers(*inputs), "derived", "computed")
            for name, inputs in CASES.items()
        ],
    )
