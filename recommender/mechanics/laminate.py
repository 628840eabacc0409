"""What a laminate does in its plane, from its lamina and lay-up: moduli, expansion, open holes, fibre kinking.

Source: classical lamination theory, for balanced and symmetric lay-ups; open holes after the anisotropic
elasticity of plates and the point-stress criterion. Directions: x is round the shell when 0 degrees is hoop.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.mechanics.amount import Amount, require_not_negative, require_positive

QUASI_ISOTROPIC = (0.0, 45.0, 90.0, -45.0)


class Lamina(NamedTuple):
    """One layer: moduli along, across and in shear (MPa), Poisson's ratio, expansion along and across (1/K)."""

    along: float
    across: float
    shear: float
    poisson: float
    expansion_along: float = 0.0
    expansion_across: float = 0.0


class Ply(NamedTuple):
    """One direction of fibres: angle from x (degrees) and its share of the thickness."""

    angle: float
    share: float


class Laminate(NamedTuple):
    """In-plane moduli (MPa), Poisson's ratio x to y and expansions (1/K) of a lay-up."""

    x: float
    y: float
    shear: float
    poisson: float
    expansion_x: float
    expansion_y: float


def even_plies(*angles: float) -> tuple[Ply, ...]:
    """Return plies of equal thickness in the directions given (degrees)."""
    return tuple(Ply(angle, 1 / len(angles)) for angle in angles)


def laminate(lamina: Lamina, plies: Sequence[Ply]) -> Laminate:
    """Return the in-plane behaviour of a lay-up.

    Raises ValueError for shares that do not add up to one, a lay-up that couples stretch with shear, or a
    modulus that is not positive.
    """
    require_positive(along=lamina.along, across=lamina.across, shear=lamina.shear)
    if not math.isclose(sum(ply.share for ply in plies), 1, abs_tol=1e-6):
        raise ValueError("the shares of the plies must add up to one")
    layers = [ply.share * _turned(lamina, ply.angle) for ply in plies]
    stiffness = np.sum(layers, axis=0)
    pull = np.sum([q @ _expansion(lamina, ply.angle) for q, ply in zip(layers, plies, strict=True)], axis=0)
    if np.abs(stiffness[:2, 2]).max() > 1e-6 * stiffness[0, 0]:
        raise ValueError("the lay-up must be balanced: as much at +angle as at -angle")
    soft = np.linalg.inv(stiffness)
    free = soft @ pull
    return Laminate(
        float(1 / soft[0, 0]),
        float(1 / soft[1, 1]),
        float(1 / soft[2, 2]),
        float(-soft[0, 1] / soft[0, 0]),
        float(free[0]),
        float(free[1]),
    )


def open_hole_tension(layup: Laminate) -> float:
    """Return the stress at the sides of a small round hole over the stress pulling along x."""
    across = 2 * (math.sqrt(layup.x / layup.y) - layup.poisson)
    return 1 + math.sqrt(across + layup.x / layup.shear)


def open_hole_compression(layup: Laminate) -> float:
    """Return the compression at the load's poles of a small round hole over the stress pulling along x."""
    return math.sqrt(layup.y / layup.x)


def notched_strength_ratio(hole_radius: Amount, characteristic: Amount) -> Amount:
    """Return the strength left beside a round hole over the plain strength, quasi-isotropic laminate.

    Both in mm; `characteristic` is the distance from the edge at which the stress decides.
    """
    require_not_negative(hole_radius=hole_radius)
    require_positive(characteristic=characteristic)
    reach = hole_radius / (hole_radius + characteristic)
    return 2 / (2 + reach**2 + 3 * reach**4)


def finite_width_factor(hole: Amount, width: Amount) -> Amount:
    """Return the peak over the mean stress of the net section for a central round hole, isotropic plate.

    Source: stress-and-strain handbook, table 17.1. Raises ValueError for a hole as wide as the plate.
    """
    require_positive(hole=hole, net_width=width - hole)
    ratio = hole / width
    return 3 - 3.13 * ratio + 3.66 * ratio**2 - 1.53 * ratio**3


def first_ply_strain(transverse_strength: Amount, across: Amount) -> Amount:
    """Return the strain at which layers across the load crack (a ratio), strength and modulus in MPa."""
    require_positive(across=across)
    return transverse_strength / across


def kink_strength(matrix_shear: Amount, fibre_share: Amount, misalignment: Amount, yield_strain: Amount) -> Amount:
    """Return the compressive strength (MPa) at which misaligned fibres kink; the elastic form, too high by about 2.

    `matrix_shear` is the matrix's shear modulus (MPa), `misalignment` in degrees, `yield_strain` that of the
    matrix in shear. Source: microbuckling of misaligned fibres, as compositecalculator.com computes it.
    """
    require_not_negative(misalignment=misalignment)
    require_positive(yield_strain=yield_strain, matrix_share=1 - fibre_share)
    return matrix_shear / (1 - fibre_share) / (1 + np.deg2rad(misalignment) / yield_strain)


def _turned(lamina: Lamina, angle: float) -> NDArray[np.float64]:
    """Return the plane stiffness (MPa) of a layer turned out of x."""
    back = 1 - lamina.poisson**2 * lamina.across / lamina.along
    q = np.array(
        [
            [lamina.along, lamina.poisson * lamina.across, 0.0],
            [lamina.poisson * lamina.across, lamina.across, 0.0],
            [0.0, 0.0, lamina.shear * back],
        ]
    )
    turn = _strain_turn(angle)
    turned: NDArray[np.float64] = turn.T @ (q / back) @ turn
    return turned


def _expansion(lamina: Lamina, angle: float) -> NDArray[np.float64]:
    own = np.array([lamina.expansion_along, lamina.expansion_across, 0.0])
    seen: NDArray[np.float64] = _strain_turn(-angle) @ own
    return seen


def _strain_turn(angle: float) -> NDArray[np.float64]:
    """Return the matrix that takes engineering strains along x and y to those along a turned layer."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return np.array([[c * c, s * s, c * s], [s * s, c * c, -c * s], [-2 * c * s, 2 * c * s, c * c - s * s]])
