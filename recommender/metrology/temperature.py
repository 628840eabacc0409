"""From a reading at bench temperature to the size at 20 C (reference temperature of ISO 1)."""

from math import sqrt

REFERENCE = 20.0


def corrected(
    value: float, frame_temperature: float, instrument_temperature: float, alpha_frame: float, alpha_instrument: float
) -> float:
    """Return the diameter in mm at 20 C of a bore read as `value`; temperatures in degC, expansions in 1/K."""
    grown = alpha_instrument * (instrument_temperature - REFERENCE) - alpha_frame * (frame_temperature - REFERENCE)
    return value * (1 + grown)


def correction_uncertainty(
    value: float,
    frame_temperature: float,
    instrument_temperature: float,
    alpha_frame: float,
    alpha_instrument: float,
    *,
    u_alpha_frame: float,
    u_alpha_instrument: float,
    u_frame_temperature: float,
    u_instrument_temperature: float,
) -> float:
    """Return the standard uncertainty of the correction in mm, all four doubts independent (GUM 5.1)."""
    frame, instrument = frame_temperature - REFERENCE, instrument_temperature - REFERENCE
    parts = (
        frame * u_alpha_frame,
        instrument * u_alpha_instrument,
        alpha_frame * u_frame_temperature,
        alpha_instrument * u_instrument_temperature,
    )
    return abs(value) * sqrt(sum(part**2 for part in parts))
