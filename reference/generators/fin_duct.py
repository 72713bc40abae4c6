"""Laminar flow and heat in a rectangular channel, from the equations themselves.

Friction: the Fourier series of ∇²u = −1. Heat: the smallest eigenvalue of ∇²θ + λ (u/ū) θ = 0 on a grid, θ = 0 on
the walls; extrapolated from two grids. Both on the hydraulic diameter D = 2ab/(a + b).
"""

from math import cosh, pi, tanh

import numpy as np
from scipy.sparse import diags, identity, kron
from scipy.sparse.linalg import eigsh, spsolve

from output import write_table


def friction_reynolds(aspect):
    """Fanning f Re in a rectangle of sides 1 and `aspect`."""
    total = sum(tanh(n * pi / (2 * aspect)) / n**5 for n in range(1, 400, 2))
    # ū = b²/12 (1 − 192 b/(π⁵ a) Σ …) for a unit pressure gradient over the viscosity
    mean = aspect**2 / 12 * (1 - 192 * aspect / pi**5 * total)
    diameter = 2 * aspect / (1 + aspect)
    # f Re = D²/(2 ū)
    return diameter**2 / (2 * mean)


def nusselt_on(aspect, count):
    """The Nusselt number on a grid of `count` cells along the shorter side, walls at one temperature."""
    ny, nx = count, round(count / aspect)
    hx, hy = 1 / nx, aspect / ny

    def second(n, h):
        return diags([1, -2, 1], [-1, 0, 1], shape=(n - 1, n - 1)) / h**2

    laplace = kron(identity(ny - 1), second(nx, hx)) + kron(second(ny, hy), identity(nx - 1))
    speed = spsolve(-laplace.tocsc(), np.ones((nx - 1) * (ny - 1)))
    mean = speed.sum() * hx * hy / aspect
    weight = diags(np.sqrt(mean / speed))
    # −W ∇² W φ = λ φ
    matrix = -(weight @ laplace @ weight)
    value = eigsh(matrix.tocsc(), k=1, sigma=0, return_eigenvectors=False)[0]
    diameter = 2 * aspect / (1 + aspect)
    # Nu = λ D²/4
    return value * diameter**2 / 4


def nusselt(aspect):
    coarse, fine = nusselt_on(aspect, 24), nusselt_on(aspect, 48)
    return fine + (fine - coarse) / 3


def main():
    rows = []
    for at, aspect in enumerate((0.125, 0.2, 0.25, 0.5, 1.0)):
        for role, value in (("friction", friction_reynolds(aspect)), ("nusselt", nusselt(aspect))):
            rows.append((f"D{at}{role[0]}", f"{role} of a rectangle", f"aspect={aspect}", "value",
                         f"{value:.5g}", "-", f"{0.005 * value:.2g}", "derived", "computed"))
    write_table("fin_duct", ("id", "quantity", "inputs", "role", "value", "unit", "tolerance", "tag", "seen"), rows)


if __name__ == "__main__":
    main()
