"""EPANET and pandapipes set up for air of constant density: what every network of theirs here has in common."""

import tempfile
import warnings
from pathlib import Path

RHO = 1.05  # kg/m³
MU = 1.85e-5  # Pa s
GAUGE_ZERO = 1e5  # Pa, added where a program wants absolute or positive pressures
G = 9.81


def epanet_head(pressure):
    """Head, m, of a gauge pressure, Pa."""
    return (pressure + GAUGE_ZERO) / (RHO * G)


def epanet_model():
    """An empty model that closes as far as the program can."""
    import wntr

    model = wntr.network.WaterNetworkModel()
    hydraulic = model.options.hydraulic
    with warnings.catch_warnings():
        # It reminds one that roughness is a length now.
        warnings.simplefilter("ignore")
        hydraulic.headloss = "D-W"
    hydraulic.inpfile_units = "CMH"
    # Multiple of the program's water, 1.1e-5 ft²/s.
    hydraulic.viscosity = MU / RHO / (1.1e-5 * 0.3048**2)
    hydraulic.accuracy = 1e-8
    hydraulic.trials = 500
    model.options.time.duration = 0
    return model


def epanet_solved(model):
    """Gauge pressures, Pa, by node, and flows, kg/s, by link, as functions of their names."""
    import wntr

    with tempfile.TemporaryDirectory() as place:
        run = wntr.sim.EpanetSimulator(model)
        results = run.run_sim(file_prefix=str(Path(place) / "network"), version=2.2)
    heads = results.node["head"].iloc[0]
    flows = results.link["flowrate"].iloc[0] * RHO
    return (
        lambda node: float(heads[node]) * RHO * G - GAUGE_ZERO,
        lambda link: float(flows[link]),
    )


def pandapipes_net():
    """An empty net with air of constant density."""
    import pandapipes as pp

    net = pp.create_empty_network()
    net["fluid"] = pp.create_constant_fluid(
        "air", "liquid", density=RHO, viscosity=MU, heat_capacity=1005.0, molar_mass=28.96
    )
    return net


def pandapipes_node(net):
    import pandapipes as pp

    return pp.create_junction(net, pn_bar=1.0, tfluid_k=293.15)


def pandapipes_boundary(net, node, pressure):
    """Holds a node at a gauge pressure, Pa."""
    import pandapipes as pp

    pp.create_ext_grid(net, node, p_bar=(pressure + GAUGE_ZERO) / 1e5, t_k=293.15)


def pandapipes_solved(net):
    """Gauge pressures, Pa, by node, and flows, kg/s, by pipe, as functions of their numbers."""
    import pandapipes as pp

    pp.pipeflow(
        net,
        friction_model="colebrook",
        max_iter_hyd=500,
        max_iter_colebrook=500,
        tol_p=1e-10,
        tol_m=1e-10,
        tol_res=1e-8,
        tolerance_colebrook=1e-12,
    )
    bars, flows = net.res_junction.p_bar, net.res_pipe.mdot_from_kg_per_s
    return (
        lambda node: float(bars[node]) * 1e5 - GAUGE_ZERO,
        lambda pipe: float(flows[pipe]),
    )
