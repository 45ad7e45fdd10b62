"""Weights and moistures: dry matter is conserved."""
