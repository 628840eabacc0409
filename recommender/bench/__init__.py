"""The case file: what was measured and seen on one frame, and the checks made before anything is computed."""
