"""Pictures of the account as SVG: bores, diameters along the depth, interference against its window."""
