"""What formulas read from the book by name: limits and their units, materials, default spreads, fit limits."""

from types import MappingProxyType

FRICTION_PAIRS = ("friction_metal_in_carbon", "friction_metal_in_metal", "friction_polymer")
FRICTIONS = ("hold_least", "greased_least", "greased_most", "dry_least", "dry_most")
PORTS = ("port_eighth", "port_quarter", "port_three_quarters")
RECESSES = ("recess_third", "recess_half", "recess_two_thirds")
LIMITS = MappingProxyType({
    "alignment.default_spread": "arcmin",
    "assumption.curvature": "um",
    "assumption.five_lobes": "um",
    "assumption.insert_wall": "mm",
    "assumption.lobing": "um",
    "assumption.ovality": "um",
    "assumption.section": "um",
    "assumption.taper": "um/mm",
    "assumption.wall": "mm",
    "assumption.wall_spread": "mm",
    "bearing.clearance_least": "um",
    "bearing.clearance_most": "um",
    "bearing.ring_stress_limit": "MPa",
    "bond.design_strength": "MPa",
    "calibration.valid": "days",
    "compound.widest_gap": "um",
    "creep.filled": "1",
    "creep.unfilled": "1",
    "evidence.contradiction": "1",
    **{f"{pair}.{which}": "1" for pair in FRICTION_PAIRS for which in FRICTIONS},
    "grip.least_pressure": "MPa",
    "grip.unfelt_force": "N",
    "joint.strength_left": "1",
    "laminate.compression": "um/m",
    "laminate.tension": "um/m",
    "land.gap": "mm",
    "layup.expansion_doubt": "ppm/K",
    "layup.modulus_doubt": "1",
    "making.lead_in_angle": "deg",
    "making.lead_in_gap": "mm",
    "making.lead_in_tolerance": "mm",
    "making.least_band": "um",
    "making.least_choice": "um",
    "making.measured_within": "um",
    "metal.tension": "um/m",
    **{f"{row}.{sign}": "1" for row in (*PORTS, *RECESSES) for sign in ("tension", "compression")},
    **{f"{row}.hold": "1" for row in RECESSES},
    "pedalling.chain_line": "mm",
    "pedalling.crank": "mm",
    "pedalling.outboard": "mm",
    "pedalling.teeth": "1",
    "pedalling.test_force": "N",
    "ream.tolerance": "um",
    "riding.axial_load": "N",
    "riding.cadence": "1",
    "riding.coldest": "degC",
    "riding.hottest": "degC",
    "riding.mean_load": "N",
    "roughness.loss": "um",
    "sleeve.bond_line_aim": "mm",
    "sleeve.tolerance": "um",
    "sleeve.wall_made": "mm",
    "turning.tolerance": "um",
})  # fmt: skip
FIT_LIMIT_UNIT = "um"
MATERIALS = ("carbon", "aluminium", "steel", "titanium", "bearing_steel", "polymer")
SPREADS = MappingProxyType({
    "depth": "mm",
    "gauge": "mm",
    "offset": "mm",
    "opening": "mm",
    "part_od": "mm",
    "ring": "mm",
    "shell_width": "mm",
    "temperature": "K",
    "wall": "mm",
})  # fmt: skip

# Limits that stand behind a fact: its formula reads them, so rules that ask the fact rest on them.
BEHIND = MappingProxyType({
    "evidence.calibration_current": ("calibration.valid",),
    "evidence.gauges_contradict": ("evidence.contradiction",),
    "bearing.class": ("bearing.clearance_least", "bearing.clearance_most", "riding.coldest", "riding.hottest"),
    "bond.peel_in_cold": ("riding.coldest",),
    "bond.shear_reserve": ("bond.design_strength", "riding.axial_load"),
    "fit.cold_pressure": ("riding.coldest",),
    "fit.hot_pressure": ("riding.hottest",),
    "fit.long_term_pressure": ("creep.filled", "creep.unfilled"),
    "opening.compression_factor": (*(f"{row}.compression" for row in (*PORTS, *RECESSES)),),
    "opening.hold_left": (*(f"{row}.hold" for row in RECESSES),),
    "opening.tension_factor": (*(f"{row}.tension" for row in (*PORTS, *RECESSES)), "joint.strength_left"),
    "strain.worst_tension": ("riding.coldest", "riding.hottest"),
})  # fmt: skip
