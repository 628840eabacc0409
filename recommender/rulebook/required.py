"""What formulas read from the book by name: limits and their units, materials, default spreads, fit limits."""

from types import MappingProxyType

LIMITS = MappingProxyType({
    "alignment.default_spread": "arcmin",
    "assumption.curvature": "um",
    "assumption.five_lobes": "um",
    "assumption.insert_wall": "mm",
    "assumption.lobing": "um",
    "assumption.ovality": "um",
    "assumption.taper": "um/mm",
    "assumption.wall": "mm",
    "assumption.wall_spread": "mm",
    "bearing.ring_stress_limit": "MPa",
    "calibration.valid": "days",
    "compound.widest_gap": "um",
    "evidence.contradiction": "1",
    "friction.greatest": "1",
    "friction.least": "1",
    "laminate.tension": "um/m",
    "land.gap": "mm",
    "metal.tension": "um/m",
    "opening.tension_factor": "1",
    "pedalling.chain_line": "mm",
    "pedalling.crank": "mm",
    "pedalling.outboard": "mm",
    "pedalling.teeth": "1",
    "ream.tolerance": "um",
    "riding.coldest": "degC",
    "riding.hottest": "degC",
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
    "fit.cold_pressure": ("riding.coldest",),
    "fit.hot_pressure": ("riding.hottest",),
    "seat.port_near": ("opening.tension_factor",),
    "strain.tension": ("opening.tension_factor",),
    "strain.worst_tension": ("opening.tension_factor", "riding.coldest", "riding.hottest"),
})  # fmt: skip
