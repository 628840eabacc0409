"""Fit recommendations for press-fit bottom-bracket shells, from measured bore geometry."""

__version__ = "0.1.0"
ENGINE = f"borewright {__version__}"
