"""Mechanics of press fits: rings, seats, strain, ovality, bearing, grip, cutting, wear, turning window.

Pure functions on floats or arrays of draws, which broadcast. Units: mm, N, MPa, K; an interference is
diametral in mm and positive when tight. Moduli, limits and allowables always come in as arguments.
"""
