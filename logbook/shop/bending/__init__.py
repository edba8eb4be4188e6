"""Folding sheet: allowances, neutral factors, radii, springback, setup sheets."""
